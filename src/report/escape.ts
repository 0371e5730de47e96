const HTML: Record<string, string> = { '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;', "'": '&#39;' };

/** The text with U+FFFD in place of every control character except tabs and line ends. */
const withoutControls = (text: string): string => text.replace(/(?![\t\n\r])\p{Cc}/gu, '\uFFFD');

/** Text for an HTML or SVG element or quoted attribute. */
export const escapeHtml = (text: string): string => withoutControls(text).replace(/[&<>"']/g, (c) => HTML[c]);

/**
 * Text for one line of Markdown (a table cell, a list item, a heading): escapes every character that can start markup
 * and replaces line ends by blanks.
 */
export const escapeMarkdown = (text: string): string =>
  withoutControls(text)
    .replace(/\s+/g, ' ')
    .replace(/[\\`*_{}[\]<>#|~!&$]/g, '\\$&')
    .replace(/(https?|ftp)(:\/\/)|(www)(\.)|(@)/gi, '$1$3\\$2$4$5')
    .replace(/^(\s*\d+)([.)])(?=\s|$)/, '$1\\$2')
    .replace(/^(\s*)([-+=])(?=[\s=-]|$)/, '$1\\$2');

/** The lines of a text, with any line ends. */
export const linesOf = (text: string): string[] => text.split(/\r\n?|\n/);
