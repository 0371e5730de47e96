/** A cell of a table: a number is written as it is, undefined as an empty cell. */
export type CsvCell = string | number | undefined;

/** A text that a spreadsheet would read as a formula gets an apostrophe in front. */
const asText = (text: string): string => (/^[=+\-@\t\r]/.test(text) ? `'${text}` : text);

function written(cell: CsvCell): string {
  if (cell === undefined) return '';
  if (typeof cell === 'number') return Number.isFinite(cell) ? String(cell) : '';
  const text = asText(cell);
  return /[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}

/** A table as CSV text (RFC 4180, lines end with a line feed), titles first. */
export const csv = (titles: readonly string[], rows: readonly (readonly CsvCell[])[]): string =>
  `${[titles, ...rows].map((row) => row.map(written).join(',')).join('\n')}\n`;
