import type { Corner } from '../design/schema.ts';

/** First fields of every JSON text of Daylight: its format, the program and the corner. `program`: version of the program. */
export const jsonHead = (
  format: string,
  version: number,
  program: string,
  designHash: string,
  { name, side }: Pick<Corner, 'name' | 'side'>,
) => ({ format, version, madeBy: `Daylight ${program}`, designHash, name, side });
