/** Title of a column. `right`: its cells are aligned right. */
export interface TextHeading {
  title: string;
  right: boolean;
}

/** Aligns cells in columns for a terminal: the line of titles, the line of each row, and the width of the first column. */
export function textColumns(
  headings: readonly TextHeading[],
  rows: readonly (readonly string[])[],
): { titles: string; lines: string[]; firstWidth: number } {
  const widths = headings.map(({ title }, i) => Math.max(title.length, ...rows.map((row) => row[i].length)));
  const line = (row: readonly string[]) =>
    row
      .map((cell, i) => (headings[i].right ? cell.padStart(widths[i]) : cell.padEnd(widths[i])))
      .join('  ')
      .trimEnd();
  return { titles: line(headings.map(({ title }) => title)), lines: rows.map(line), firstWidth: widths[0] };
}
