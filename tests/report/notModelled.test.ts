import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { reportHtml } from '../../src/report/html.ts';
import { reportMarkdown } from '../../src/report/markdown.ts';
import { NOT_MODELLED } from '../../src/report/notModelled.ts';
import { reportInput } from './fixture.ts';

/** Text as read: markup and line breaks are spaces. */
const plain = (text: string): string => text.replace(/\s+/g, ' ');

it.each([
  ['README.md', '## What it does not check'],
  ['public/guide/report.md', '## Not modelled'],
])('%s lists what is not modelled, each item of the list and nothing else', (path, heading) => {
  const text = readFileSync(new URL(`../../${path}`, import.meta.url), 'utf8');
  const section = text.split(`${heading}\n`)[1].split(/\n#+ /)[0];
  const items = section
    .split(/^- /m)
    .slice(1)
    .map((item) => plain(item).trim());
  expect(items).toEqual(NOT_MODELLED);
});

it('the report lists what is not modelled, in both forms', () => {
  const input = reportInput();
  const html = reportHtml(input).split('<h2>Not modelled</h2>')[1].split('</section>')[0];
  expect(html.match(/<li>/g)).toHaveLength(NOT_MODELLED.length);
  for (const item of NOT_MODELLED)
    expect(html).toContain(`<li>${item.replaceAll('"', '&quot;').replaceAll("'", '&#39;')}</li>`);
  const markdown = reportMarkdown(input).split('## Not modelled')[1].split('\n## ')[0];
  expect(markdown.match(/^- /gm)).toHaveLength(NOT_MODELLED.length);
});

it('names each thing that a builder must look at by hand', () => {
  const all = NOT_MODELLED.join(' ').toLowerCase();
  for (const word of [
    'flex',
    'play',
    'wear',
    'heat',
    'hoses',
    'wires',
    'drive shafts',
    'weld beads',
    'boots',
    'seals',
    'cotter pins',
    'safety wire',
    'washers of joint bolts',
    'brake pads',
    'wheel weights',
    'valve',
    'threads',
    'chamfers',
    'fillets',
    'tapered seats',
    'boxed legs',
    'spokes',
    'brackets',
    'under load',
    'other side',
    'bodywork',
    'coils',
    'anti-roll bar',
    'inner shape of the caliper',
    'banjo',
  ])
    expect(all).toContain(word);
});
