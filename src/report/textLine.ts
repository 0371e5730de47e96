/** A line of a text; each level is indented under the line of the level above. */
export interface TextLine {
  level: number;
  text: string;
}

export const textLine = (text: string, level = 0): TextLine => ({ level, text });

/** The lines as plain text, indented by two spaces per level. */
export const indented = (lines: readonly TextLine[]): string[] =>
  lines.map(({ level, text }) => `${'  '.repeat(level)}${text}`);
