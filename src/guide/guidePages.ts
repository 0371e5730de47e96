import { readdirSync, readFileSync } from 'node:fs';
import { basename, posix, resolve } from 'node:path';
import { Marked, type Token, type Tokens } from 'marked';
import type { Plugin } from 'vite';

const ROOT = resolve(import.meta.dirname, '../..');
const STYLES = resolve(ROOT, 'src/app/styles');
const STYLE_PAGE = 'guide/guide.css';
const CONTENTS = 'guide/index.md';
/** Own style sheet and own pictures: the pages run no script and ask nobody else for anything. */
const POLICY = "default-src 'none'; style-src 'self'; img-src 'self'; base-uri 'none'; form-action 'none'";

/** The chapters of the guide and the format of the result files, as paths in `public`. */
const sources = (): string[] => [
  ...readdirSync(resolve(ROOT, 'public/guide'))
    .filter((name) => name.endsWith('.md'))
    .map((name) => `guide/${name}`),
  'results-format.md',
];

const read = (source: string): string => readFileSync(resolve(ROOT, 'public', source), 'utf8');

const asPage = (path: string): string => path.replace(/\.md(?=$|#)/, '.html');

const escaped = (text: string): string =>
  text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('"', '&quot;');

/** Text of a heading without markup. */
const plainText = (tokens: readonly Token[]): string =>
  tokens.map((token) => ('tokens' in token && token.tokens ? plainText(token.tokens) : token.raw)).join('');

/** The anchor of a heading, as GitHub makes it. */
export const anchorOf = (heading: string): string =>
  heading
    .toLowerCase()
    .replaceAll(/[^\p{L}\p{N}\s_-]/gu, '')
    .replaceAll(/\s/g, '-');

/** Headings with anchors, links to pages instead of Markdown, and what may be too wide in a box that the keyboard scrolls. */
const markdown = new Marked({
  walkTokens(token) {
    if (token.type === 'link' && !/^[a-z]+:/.test(token.href)) token.href = asPage(token.href);
  },
  renderer: {
    heading({ tokens, depth }) {
      const anchor = anchorOf(plainText(tokens).replaceAll('`', ''));
      return `<h${depth} id="${anchor}">${this.parser.parseInline(tokens)}</h${depth}>\n`;
    },
    code: ({ text }) => `<pre tabindex="0"><code>${escaped(text)}</code></pre>\n`,
  },
});

interface Chapter {
  source: string;
  title: string;
}

/** The chapters in the order of the contents. */
function chapters(): Chapter[] {
  const found: Chapter[] = [];
  const lexed = markdown.lexer(read(CONTENTS));
  markdown.walkTokens(lexed, (token) => {
    if (token.type !== 'link') return;
    const { href, text } = token as Tokens.Link;
    const source = posix.join('guide', href);
    if (source.endsWith('.md') && found.every((one) => one.source !== source))
      found.push({ source, title: text });
  });
  return found;
}

/** One page as HTML. `source`: its Markdown file, a path in `public`. */
export function guidePage(source: string): string {
  const toRoot = posix.relative(posix.dirname(source), '') || '.';
  const pageTo = (other: string) => `${toRoot}/${asPage(other)}`;
  const text = read(source);
  const title = /^# (.*)$/m.exec(text)?.[1] ?? basename(source, '.md');
  const all = [{ source: CONTENTS, title: 'Contents' }, ...chapters()];
  const links = all.map(
    (one) =>
      `<li><a href="${pageTo(one.source)}"${one.source === source ? ' aria-current="page"' : ''}>${escaped(one.title)}</a></li>`,
  );
  const next = all[all.findIndex((one) => one.source === source) + 1];
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${POLICY}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="color-scheme" content="light dark">
<title>${escaped(title)} – Daylight guide</title>
<link rel="icon" type="image/svg+xml" href="${toRoot}/icon.svg">
<link rel="stylesheet" href="${toRoot}/${STYLE_PAGE}">
</head>
<body>
<nav aria-label="Chapters">
<p>Daylight guide</p>
<ul>
${links.join('\n')}
</ul>
</nav>
<main>
${markdown.parse(text, { async: false })}${next === undefined ? '' : `<p class="next">Next: <a href="${pageTo(next.source)}">${escaped(next.title)}</a></p>\n`}</main>
</body>
</html>
`;
}

/** The workbench's colours and the guide's own rules. Pages without scripts take light or dark from the system. */
const guideStyle = (): string =>
  readFileSync(resolve(STYLES, 'tokens.css'), 'utf8').replace(
    /:root\[data-theme="dark"\] (\{[^}]*\})/,
    '@media (prefers-color-scheme: dark) { :root $1 }',
  ) + readFileSync(resolve(STYLES, 'guide.css'), 'utf8');

/** Path of each file of the guide, and what makes it. */
const guideFiles = (): Map<string, () => string> =>
  new Map([
    ...sources().map((source) => [asPage(source), () => guidePage(source)] as const),
    [STYLE_PAGE, guideStyle],
  ]);

/** Turns the Markdown of the guide into pages: served as they are read in development, written in a build. */
export const guidePages = (): Plugin => ({
  name: 'guide-pages',
  configureServer({ middlewares }) {
    middlewares.use((request, response, next) => {
      const { pathname } = new URL(request.url ?? '/', 'http://localhost');
      const path = pathname.replace(/^\//, '').replace(/^guide\/?$/, 'guide/index.html');
      const make = guideFiles().get(path);
      if (make === undefined) return next();
      response.setHeader('Content-Type', path.endsWith('.css') ? 'text/css' : 'text/html');
      response.end(make());
    });
  },
  generateBundle() {
    for (const [fileName, make] of guideFiles()) this.emitFile({ type: 'asset', fileName, source: make() });
  },
});
