/**
 * Characters that do not print but move, hide or reorder their neighbours: controls, line and paragraph separators, lone
 * surrogates, and format characters such as right-to-left marks and the zero-width space. The zero-width joiner and
 * non-joiner are allowed: some scripts need them.
 */
const UNPRINTED = /(?![\u200C\u200D])[\p{Cc}\p{Cf}\p{Cs}\p{Zl}\p{Zp}]/u;
const EACH_UNPRINTED = new RegExp(UNPRINTED, 'gu');

/** Control characters except tab and line ends. */
const CONTROL = /(?![\t\n\r])\p{Cc}/u;

/** The problem with a text that must be one line of printing characters; undefined if there is none. */
export function lineFault(text: string): string | undefined {
  const found = UNPRINTED.exec(text);
  if (found === null) return undefined;
  const place = `${codeOf(found[0])} at character ${found.index + 1}`;
  return /[\n\r\u2028\u2029]/.test(found[0])
    ? `has a line break (${place}); write it on one line`
    : `has a character that does not print (${place}); remove it`;
}

/** The problem with a text that may have several lines; undefined if there is none. */
export function linesFault(text: string): string | undefined {
  const found = CONTROL.exec(text);
  if (found === null) return undefined;
  return `has a control character (${codeOf(found[0])} at character ${found.index + 1}); remove it`;
}

/** The problem with the name of an asset, which must be that of a file in the corner file's own folder; undefined if there is none. */
export function assetNameFault(name: string): string | undefined {
  const allowed = 'write the name of a file in the folder of the corner file, without a path';
  if (name === '') return `is empty; ${allowed}`;
  if (name === '.' || name === '..') return `is a folder; ${allowed}`;
  // A colon separates a drive or a stream from the name.
  const separator = /[/\\:]/.exec(name)?.[0];
  return separator === undefined ? lineFault(name) : `has the path separator ${separator}; ${allowed}`;
}

/**
 * The text on one line, with each character that does not print as its JSON escape: a line break is `\n`, a right-to-left
 * override `\u202e`. Text inside JSON quotes keeps its meaning.
 */
export const visible = (text: string): string => text.replace(EACH_UNPRINTED, escaped);

/** As `visible`, but keeps line feeds, for output of several lines. */
export const visibleLines = (text: string): string =>
  text.replace(EACH_UNPRINTED, (character) => (character === '\n' ? character : escaped(character)));

const escaped = (character: string): string => {
  const short = { '\n': '\\n', '\r': '\\r', '\t': '\\t' }[character];
  return short ?? Array.from({ length: character.length }, (_, unit) => unitEscape(character, unit)).join('');
};

const unitEscape = (character: string, unit: number): string =>
  `\\u${character.charCodeAt(unit).toString(16).padStart(4, '0')}`;

/** `U+202E`. */
const codeOf = (character: string): string =>
  `U+${(character.codePointAt(0) as number).toString(16).toUpperCase().padStart(4, '0')}`;

/** A name in the file as words: `outboardDepth` gives "outboard depth", `clockingDeg` gives "clocking", `points[0]` "points 1". */
export const inWords = (name: string): string =>
  name
    .replace(/Deg$/, '')
    .replace(/[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`)
    .replace(/\[(\d+)\]/g, (_, index) => ` ${Number(index) + 1}`);
