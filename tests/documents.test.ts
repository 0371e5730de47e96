import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { basename, dirname, posix, resolve } from 'node:path';
import { Marked, type Token } from 'marked';
import { describe, expect, it } from 'vitest';
import { EXIT } from '../src/cli/exit.ts';
import { generalHelp } from '../src/cli/help.ts';
import { OPTIONS } from '../src/cli/options.ts';
import { anchorOf, guidePage } from '../src/guide/guidePages.ts';

const ROOT = resolve(import.meta.dirname, '..');
const marked = new Marked();
const read = (path: string): string => readFileSync(resolve(ROOT, path), 'utf8');
const CHAPTERS = readdirSync(resolve(ROOT, 'public/guide'))
  .filter((name) => name.endsWith('.md'))
  .map((name) => `public/guide/${name}`);
const DOCUMENTS = ['README.md', 'DEVELOPERS.md', 'public/results-format.md', ...CHAPTERS];

/** What `pick` returns for the tokens of a document, without what it leaves undefined. */
function tokensOf<T>(path: string, pick: (token: Token) => T | undefined): T[] {
  const found: T[] = [];
  marked.walkTokens(marked.lexer(read(path)), (token) => {
    const picked = pick(token);
    if (picked !== undefined) found.push(picked);
  });
  return found;
}

const targetsOf = (path: string): string[] =>
  tokensOf(path, (token) => (token.type === 'link' || token.type === 'image' ? token.href : undefined));
const codesOf = (path: string): string[] =>
  tokensOf(path, (token) => (token.type === 'codespan' ? token.text : undefined));
const anchorsOf = (path: string): string[] =>
  tokensOf(path, (token) =>
    token.type === 'heading' ? anchorOf(token.text.replaceAll('`', '')) : undefined,
  );

/** File and anchor that a link of a document leads to, from the root. */
function resolved(path: string, target: string): { file: string; anchor: string | undefined } {
  const [file, anchor] = target.split('#');
  return { file: file === '' ? path : posix.join(dirname(path), file), anchor };
}

function filesUnder(folder: string): string[] {
  return readdirSync(resolve(ROOT, folder), { withFileTypes: true }).flatMap((entry) => {
    const path = `${folder}/${entry.name}`;
    return entry.isDirectory() ? filesUnder(path) : [path];
  });
}

describe('links', () => {
  it.each(DOCUMENTS)('%s: every link and picture leads to a file, every anchor to a heading', (path) => {
    const broken = targetsOf(path).filter((target) => {
      const { file, anchor } = resolved(path, target);
      return !existsSync(resolve(ROOT, file)) || (anchor !== undefined && !anchorsOf(file).includes(anchor));
    });
    expect(broken).toEqual([]);
  });

  it('finds links and pictures at all', () => {
    expect(targetsOf('README.md')).toContain('public/workbench.png');
    expect(CHAPTERS.flatMap(targetsOf).length).toBeGreaterThan(30);
  });

  it('links every chapter from the contents, and shows every picture of the tour', () => {
    const listed = targetsOf('public/guide/index.md').map(
      (target) => resolved('public/guide/index.md', target).file,
    );
    expect(CHAPTERS.filter((path) => !path.endsWith('/index.md') && !listed.includes(path))).toEqual([]);
    const shown = CHAPTERS.flatMap((path) => targetsOf(path).map((target) => resolved(path, target).file));
    expect(filesUnder('public/tour').filter((path) => !shown.includes(path))).toEqual([]);
  });

  it('names example files that exist', () => {
    const named = DOCUMENTS.flatMap((path) => read(path).match(/[\w-]+\.corner\.json/g) ?? []);
    const wrong = new Set(
      named.filter((name) => name !== 'NAME.corner.json' && !existsSync(resolve(ROOT, 'demo-data', name))),
    );
    expect([...wrong]).toEqual([]);
  });
});

describe('pages of the guide', () => {
  const pages = [...CHAPTERS, 'public/results-format.md'].map((path) => path.replace('public/', ''));

  it.each(pages)('%s: every address of the page is a page or a file of the built workbench', (source) => {
    const html = guidePage(source);
    const addresses = [...html.matchAll(/ (?:href|src)="([^"#]+)/g)].map((match) =>
      posix.join(dirname(source), match[1]),
    );
    const known = ['guide/guide.css', ...pages.map((page) => page.replace('.md', '.html'))];
    const wrong = addresses.filter(
      (address) => !known.includes(address) && !existsSync(resolve(ROOT, 'public', address)),
    );
    expect(wrong).toEqual([]);
    expect(addresses.filter((address) => address.endsWith('.md'))).toEqual([]);
    expect(html).not.toMatch(/<script|<style| style=/);
  });

  it('marks the chapter in the list of chapters, and leads to the next', () => {
    const html = guidePage('guide/bolts.md');
    expect(html).toContain('<a href="../guide/bolts.html" aria-current="page">Bolts</a>');
    expect(html).toContain('<p class="next">Next: <a href="../guide/report.html">Report</a></p>');
    expect(html).toContain('<h2 id="steps-of-assembly">Steps of assembly</h2>');
  });

  it('escapes what would be markup', () => {
    expect(guidePage('guide/file-format.md')).toContain('<pre tabindex="0"><code>{\n  &quot;format&quot;');
  });
});

describe('what the guide lists', () => {
  it('every field of every part', () => {
    const fields = new Set<string>();
    const collect = (schema: unknown): void => {
      if (typeof schema !== 'object' || schema === null) return;
      for (const [key, value] of Object.entries(schema)) {
        if (key === 'properties') for (const name of Object.keys(value)) fields.add(name);
        collect(value);
      }
    };
    collect(JSON.parse(read('public/corner.schema.json')).properties.parts);
    expect(fields.size).toBeGreaterThan(100);
    const named = new Set(CHAPTERS.flatMap(codesOf).flatMap((code) => code.match(/\w+/g) ?? []));
    expect([...fields].filter((name) => name !== 'kind' && !named.has(name))).toEqual([]);
  });

  it('only options that a command has', () => {
    const named = new Set(CHAPTERS.flatMap(codesOf).flatMap((code) => code.match(/--[a-z-]+/g) ?? []));
    expect(named.size).toBeGreaterThan(20);
    expect([...named].filter((option) => !Object.hasOwn(OPTIONS, option.slice(2)))).toEqual([]);
  });

  it('every exit code, in the words of the help', () => {
    const rows = [...read('public/guide/command-line.md').matchAll(/^\| (\d+) \| (.*) \|$/gm)];
    const help = [...generalHelp([]).matchAll(/^ +(\d+) +(.*)$/gm)];
    expect(rows.map(([, code, meaning]) => [code, meaning])).toEqual(
      help.map(([, code, meaning]) => [code, meaning]),
    );
    expect(rows.map(([, code]) => Number(code))).toEqual(Object.values(EXIT));
  });
});

it('DEVELOPERS.md names files, folders and identifiers that exist', () => {
  const files = ['src', 'tests'].flatMap(filesUnder);
  const names = new Set([...files.map((path) => basename(path)), ...readdirSync(ROOT)]);
  const codes = codesOf('DEVELOPERS.md').flatMap((code) => code.split(/[\s,]+/));
  const paths = codes.filter((code) => /^(src|tests|public|\.ci)\/[\w./-]+$/.test(code));
  const bare = codes.filter((code) => /^[\w.]+\.(ts|tsx|js|md)$/.test(code));
  expect(paths.length).toBeGreaterThan(60);
  expect(bare.length).toBeGreaterThan(20);
  expect(paths.filter((path) => !existsSync(resolve(ROOT, path)))).toEqual([]);
  expect(bare.filter((name) => !names.has(name))).toEqual([]);
  const text = [...files.filter((path) => /\.(tsx?|js)$/.test(path)), 'package.json', '.gitignore']
    .map(read)
    .join();
  const words = codes.flatMap((code) => code.match(/^[a-z]\w+$/i) ?? []);
  expect(words.length).toBeGreaterThan(50);
  expect(words.filter((word) => !new RegExp(`\\b${word}\\b`).test(text))).toEqual([]);
});
