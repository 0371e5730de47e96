import { getDocument } from 'pdfjs-dist/legacy/build/pdf.mjs';
import { describe, expect, it } from 'vitest';
import { pdfBytes } from '../../src/cli/pdf.ts';
import { buildContent } from '../../src/report/buildContent.ts';
import { printable, reportDefinition } from '../../src/report/pdf/reportPdf.ts';
import { picturesOf } from '../../src/report/pictures.ts';
import { cornerSource } from './cornerSource.ts';
import { reportInput } from './fixture.ts';
import { inventedStudy } from './measuringError/inventedStudy.ts';

const input = reportInput({
  source: cornerSource({ name: 'A (b) \\ </script> "c"' }),
  measuringError: inventedStudy([{ exactCount: 52 }, { exactCount: 49 }, { exactCount: 49 }]),
});
const make = (paper: 'A4' | 'Letter') =>
  pdfBytes(reportDefinition(buildContent(input, picturesOf(input)), paper, input.date));

/** Size in points, text and number of links of each page, by an independent reader. */
async function pagesOf(bytes: Uint8Array) {
  const document = await getDocument({ data: Uint8Array.from(bytes), verbosity: 0 }).promise;
  return Promise.all(
    Array.from({ length: document.numPages }, async (_, i) => {
      const page = await document.getPage(i + 1);
      const { items } = await page.getTextContent();
      const text = items
        .map((item) => ('str' in item ? item.str : ''))
        .join(' ')
        .replace(/\s+/g, ' ');
      const links = (await page.getAnnotations()).filter(({ subtype }) => subtype === 'Link');
      return { size: page.view.slice(2), text, links: links.length };
    }),
  );
}

describe('the report as PDF', () => {
  // ISO 216: A4 is 210 x 297 mm. ANSI/ASME Y14.1: Letter is 8.5 x 11 in. A point is 1/72 in.
  it.each([
    ['A4', 210 / 25.4, 297 / 25.4],
    ['Letter', 8.5, 11],
  ] as const)(
    'has pages of %s, and verdict, tightest pairs and cautions on the first',
    async (paper, width, height) => {
      const pages = await pagesOf(await make(paper));
      for (const { size } of pages) {
        expect(size[0] / 72).toBeCloseTo(width, 5);
        expect(size[1] / 72).toBeCloseTo(height, 5);
      }
      const [first, ...others] = pages;
      expect(first.text).toContain(`Clearance report: ${input.design.corner.name}`);
      expect(first.text).toContain('The tightest pairs');
      expect(first.text).toContain('A wheel, brake, steering or suspension part that fails can kill');
      expect(first.text).toContain('a qualified welder do the welding');
      expect(first.text).toContain('without the ± of 52 values');
      expect(first.links).toBe(3);
      const rest = others.map(({ text }) => text).join(' ');
      for (const title of ['All pairs', 'Inputs', 'Method', 'Not modelled', 'Signing off'])
        expect(rest).toContain(title);
    },
  );

  it('has no title at the end of a page', async () => {
    const content = buildContent(input, picturesOf(input));
    for (const { text } of await pagesOf(await make('Letter')))
      for (const { title } of content.sections)
        expect(text).not.toContain(`${printable(title)} ${printable(content.title)}. ${content.subtitle}`);
  });

  it('is the same, byte for byte, if made again', async () => {
    expect(Buffer.from(await make('A4')).equals(Buffer.from(await make('A4')))).toBe(true);
  });
});
