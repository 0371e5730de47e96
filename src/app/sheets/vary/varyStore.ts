import { create } from 'zustand';
import type { LengthUnit } from '../../../report/figures.ts';
import type { StudyState } from '../../workers/studyRun.ts';
import type { TypedRange } from '../../workers/vary/typedAxis.ts';
import type { VariedResult } from '../../workers/vary/varyWorker.ts';

/** Results in each unit. */
export type VariedByUnit = Record<LengthUnit, VariedResult>;

export type VaryState = StudyState<VariedByUnit>;

interface VaryStore {
  /** Name of the selected dimension or list; empty for the first that the corner has. */
  name: string;
  /** The typed values, by name of the dimension or list. */
  typed: Readonly<Record<string, TypedRange>>;
  state: VaryState;
}

/** The input and the result of the variants study. Kept while sheets open and close, never part of a file. */
export const useVary = create<VaryStore>(() => ({ name: '', typed: {}, state: { kind: 'none' } }));
