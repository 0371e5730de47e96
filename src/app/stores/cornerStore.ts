import { create } from 'zustand';
import type { Problem } from '../../design/problem.ts';
import type { Findings } from '../../findings/findings.ts';
import type { SweepResult } from '../../sweep/result.ts';
import type { OpenCorner } from '../engine.ts';

export type SweepProgress =
  | { kind: 'running'; done: number; total: number }
  | { kind: 'done' }
  | { kind: 'cancelled' }
  | { kind: 'failed'; why: string };

/** What a sweep has found so far. A new object each time something was added, though `result` is filled in place. */
export interface Swept {
  result: SweepResult;
  findings: Findings;
}

interface CornerState {
  corner: OpenCorner | undefined;
  /** Name of a file that is being read. */
  opening: string | undefined;
  /** Of the last file that could not be opened; what was open stays open. */
  rejected: { fileName: string; problems: readonly Problem[] } | undefined;
  progress: SweepProgress | undefined;
  swept: Swept | undefined;
}

/** The corner in hand and what is known of it. Written by the session alone. */
export const useCorner = create<CornerState>(() => ({
  corner: undefined,
  opening: undefined,
  rejected: undefined,
  progress: undefined,
  swept: undefined,
}));
