import type { Zone } from '../solids/solid.ts';

/** A pair of solids that is checked. */
export interface Pair {
  /** Indices into the solids. */
  a: number;
  b: number;
  /** False for a fit pair: its carriers never move against each other. */
  moves: boolean;
  /** Where contact is intended: cut out of both surfaces. */
  zones: readonly Zone[];
  targetMm: number;
  /** Where the target comes from: a source, common practice, or the file. */
  targetOrigin: string;
  /** Sum of both parts' allowances. */
  allowanceMm: number;
}

/** A pair that is not checked, and why. */
export interface UncheckedPair {
  a: number;
  b: number;
  why: string;
  /** The checks of dimensions that cover it, in words: "pilot in bore". None where nothing of it is checked. */
  coveredBy?: readonly string[];
}

/** What two solids are called as a pair: the same from one variant of a corner to the next. */
export const pairId = (solids: readonly { id: string }[], { a, b }: Pick<Pair, 'a' | 'b'>): string =>
  `${solids[a].id} ${solids[b].id}`;
