import type { Assets } from './assets.ts';
import type { Corner } from './schema.ts';

/** One value of a corner as the engine uses it, with the text as typed. */
export interface InputRecord {
  /** `parts[3].body.length`. */
  path: string;
  /** The value as typed in the file; undefined for a default. */
  typed: string | number | boolean | undefined;
  /** The value in use: mm for a length (Z of a point from the ground), degrees for an angle, as written otherwise. */
  value: string | number | boolean;
  quantity: 'length' | 'angle' | 'other';
  /** The ± typed with a length; undefined if none was typed. */
  plusMinusMm: number | undefined;
  /** True for a default, and for a value that the file lists as assumed. */
  assumed: boolean;
}

/** A corner file that was read without problems. */
export interface Design {
  corner: Corner;
  /** The JSON of the file as typed; a save writes it back. */
  source: unknown;
  inputs: readonly InputRecord[];
  /** The files beside the corner that it lists, sorted by name. */
  assets: Assets;
  /** SHA-256, hex, of the corner in canonical form and its assets: equal for corners that give the same results. */
  hash: string;
}
