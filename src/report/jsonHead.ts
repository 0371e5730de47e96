import type { Corner } from '../design/schema.ts';

/** What every JSON text of Daylight begins with: its format, what made it, and of which corner. `program`: its version. */
export const jsonHead = (
  format: string,
  version: number,
  program: string,
  designHash: string,
  { name, side }: Pick<Corner, 'name' | 'side'>,
) => ({ format, version, madeBy: `Daylight ${program}`, designHash, name, side });
