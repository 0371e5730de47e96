import type { Assets } from './assets.ts';
import type { Corner } from './schema.ts';

/** How far a measured value may be off, either way. */
export interface PlusMinus {
  /** mm for a length, degrees for an angle. */
  amount: number;
  /** `typed` with the value, or the file's `measuredTo`. */
  from: 'typed' | 'measuredTo';
}

/** One value of a corner as the engine uses it, with the text as typed. */
export interface InputRecord {
  /** `parts[3].body.length`. */
  path: string;
  /** The value as typed in the file; undefined for a default. */
  typed: string | number | boolean | undefined;
  /** The value in use: mm for a length (Z of a point from the ground), degrees for an angle, as written otherwise. */
  value: string | number | boolean;
  quantity: 'length' | 'angle' | 'other';
  /** The ± in use; undefined for a value without one. */
  plusMinus: PlusMinus | undefined;
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
