import { create } from 'zustand';
import type { LengthUnit } from '../../report/figures.ts';
import type { VariedRow } from '../../report/varied/variedRows.ts';
import type { TypedRange } from './asked.ts';

/** A study in words. */
export interface VariedTold {
  /** Where it fits, and what is in the way beyond. */
  fits: readonly string[];
  /** What the answers hold for. */
  scope: readonly string[];
  rows: readonly VariedRow[];
}

/** Of which corner, and what of it was varied. */
interface Of {
  designHash: string;
  label: string;
}

export type VaryState =
  | { kind: 'none' }
  | ({ kind: 'running'; done: number; total: number } & Of)
  | ({ kind: 'cancelled' } & Of)
  | ({ kind: 'failed'; why: string } & Of)
  | ({ kind: 'told'; told: Record<LengthUnit, VariedTold> } & Of);

interface VaryStore {
  /** Name of the dimension or the list in hand; empty for the first that the corner has. */
  name: string;
  /** What was typed, by the name of what it is for. */
  typed: Readonly<Record<string, TypedRange>>;
  state: VaryState;
}

/** What is varied and what came of it: kept while sheets open and close, and never part of a file. */
export const useVary = create<VaryStore>(() => ({ name: '', typed: {}, state: { kind: 'none' } }));
