import type { Zone } from '../solids/solid.ts';

/** A checked pair of solids. */
export interface Pair {
  /** Indices into the solids. */
  a: number;
  b: number;
  /** False for a fit pair, whose carriers never move relative to each other. */
  moves: boolean;
  /** Zones of intended contact; they are cut out of both surfaces. */
  zones: readonly Zone[];
  targetMm: number;
  /** Origin of the target: a source, common practice, or the file. */
  targetOrigin: string;
  /** Sum of both parts' allowances. */
  allowanceMm: number;
}

/** A pair that is not checked, with the reason. */
export interface UncheckedPair {
  a: number;
  b: number;
  why: string;
  /** Dimension checks that cover the pair, such as "pilot in bore". Absent if no check covers it. */
  coveredBy?: readonly string[];
}

/** Identifier of a pair, from the ids of its solids. It is the same in every variant of a corner. */
export const pairIdFrom = (a: string, b: string): string => `${a} ${b}`;

export const pairId = (solids: readonly { id: string }[], { a, b }: Pick<Pair, 'a' | 'b'>): string =>
  pairIdFrom(solids[a].id, solids[b].id);

/** Label of a pair from the labels of its parts: "Tie rod ↔ Wheel". */
export const pairLabelFrom = (a: string, b: string): string => `${a} ↔ ${b}`;

export const pairLabel = (solids: readonly { label: string }[], { a, b }: Pick<Pair, 'a' | 'b'>): string =>
  pairLabelFrom(solids[a].label, solids[b].label);
