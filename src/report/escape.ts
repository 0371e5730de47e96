const HTML: Record<string, string> = { '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;', "'": '&#39;' };

/** Text with every control character but tab and line ends shown as U+FFFD: none reaches a document. */
const withoutControls = (text: string): string => text.replace(/(?![\t\n\r])\p{Cc}/gu, '\uFFFD');

/** Text for an HTML or SVG element or quoted attribute. */
export const escapeHtml = (text: string): string => withoutControls(text).replace(/[&<>"']/g, (c) => HTML[c]);

/**
 * Text for one line of Markdown (a table cell, a list item, a heading): every character that could start markup is
 * escaped, line ends become blanks.
 */
export const escapeMarkdown = (text: string): string =>
  withoutControls(text)
    .replace(/\s+/g, ' ')
    .replace(/[\\`*_{}[\]<>#|~!&$]/g, '\\$&')
    .replace(/(https?|ftp)(:\/\/)|(www)(\.)|(@)/gi, '$1$3\\$2$4$5')
    .replace(/^(\s*\d+)([.)])(?=\s|$)/, '$1\\$2')
    .replace(/^(\s*)([-+=])(?=[\s=-]|$)/, '$1\\$2');

/** The lines of a text that a person wrote. */
export const linesOf = (text: string): string[] => text.split(/\r\n?|\n/);
