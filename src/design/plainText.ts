/**
 * Characters that do not print but move, hide or reorder what stands beside them: controls, line and paragraph
 * separators, lone surrogates, and format characters such as right-to-left marks and the zero-width space. The
 * zero-width joiner and non-joiner are left out: some scripts cannot be written without them.
 */
const UNPRINTED = /(?![\u200C\u200D])[\p{Cc}\p{Cf}\p{Cs}\p{Zl}\p{Zp}]/u;
const EACH_UNPRINTED = new RegExp(UNPRINTED, 'gu');

/** Control characters but tab and line ends. */
const CONTROL = /(?![\t\n\r])\p{Cc}/u;

/** What is wrong with a text that has to stand on one line and to print as it reads; undefined where nothing is. */
export function lineComplaint(text: string): string | undefined {
  const found = UNPRINTED.exec(text);
  if (found === null) return undefined;
  const place = `${codeOf(found[0])} at character ${found.index + 1}`;
  return /[\n\r\u2028\u2029]/.test(found[0])
    ? `has a line break (${place}); write it on one line`
    : `has a character that does not print (${place}); write it without`;
}

/** What is wrong with a text of several lines; undefined where nothing is. */
export function linesComplaint(text: string): string | undefined {
  const found = CONTROL.exec(text);
  if (found === null) return undefined;
  return `has a control character (${codeOf(found[0])} at character ${found.index + 1}); write it without`;
}

/**
 * The text on one line, each character that does not print as its JSON escape: a line break is `\n`, a right-to-left
 * override `\u202e`. Text inside JSON quotes keeps its meaning.
 */
export const visible = (text: string): string => text.replace(EACH_UNPRINTED, escaped);

/** As `visible`, but line feeds stay: for output of several lines. */
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
