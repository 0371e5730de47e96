import { create } from 'zustand';
import type { LengthUnit } from '../../../report/figures.ts';
import type { TypedRange } from '../../workers/vary/typedAxis.ts';
import type { VariedResult } from '../../workers/vary/varyWorker.ts';

/** The corner of a study, and the name of what it varies. */
interface Of {
  designHash: string;
  label: string;
}

export type VaryState =
  | { kind: 'none' }
  | ({ kind: 'running'; done: number; total: number } & Of)
  | ({ kind: 'cancelled' } & Of)
  | ({ kind: 'failed'; why: string } & Of)
  | ({ kind: 'done'; result: Record<LengthUnit, VariedResult> } & Of);

interface VaryStore {
  /** Name of the selected dimension or list; empty for the first that the corner has. */
  name: string;
  /** The typed values, by name of the dimension or list. */
  typed: Readonly<Record<string, TypedRange>>;
  state: VaryState;
}

/** The input and the result of the variants study. Kept while sheets open and close, never part of a file. */
export const useVary = create<VaryStore>(() => ({ name: '', typed: {}, state: { kind: 'none' } }));
