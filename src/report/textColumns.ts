/** A title, and whether what stands under it is set to the right. */
export interface TextHeading {
  title: string;
  right: boolean;
}

/** Lines of text for a terminal with their cells under each other: the titles, then each row. */
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
