import type { Corner } from './schema.ts';

/** One value of a corner as the engine uses it, with what the person typed. */
export interface InputRecord {
  /** `parts[3].body.length`. */
  path: string;
  /** As it stands in the file; undefined where the value is a default. */
  typed: string | number | boolean | undefined;
  /** The value in use: mm for a length (Z of a point from the ground), degrees for an angle, as written otherwise. */
  value: string | number | boolean;
  quantity: 'length' | 'angle' | 'other';
  /** The ± typed with a length; undefined where none was. */
  plusMinusMm: number | undefined;
  /** True for a default that nobody confirmed, and for a value that the file lists as assumed. */
  assumed: boolean;
}

/** A corner file, read and sound. */
export interface Design {
  corner: Corner;
  /** The JSON of the file as it was typed; what a save writes back. */
  source: unknown;
  inputs: readonly InputRecord[];
  /** SHA-256, hex, of the corner in canonical form: equal for corners that are the same to the engine. */
  hash: string;
}
