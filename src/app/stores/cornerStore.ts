import { create } from 'zustand';
import type { Problem } from '../../design/problem.ts';
import type { Findings } from '../../findings/findings.ts';
import type { SweepResult } from '../../sweep/result.ts';
import type { OpenCorner } from '../engine.ts';

/** Every step is measured first, then what lies between the steps is proved. */
export type Work = 'sweep' | 'proof';

export type SweepProgress =
  /** `cells`: of a proof, looked at so far. */
  | { kind: 'running'; work: Work; done: number; total: number; cells: number }
  | { kind: 'done' }
  | { kind: 'cancelled'; work: Work }
  | { kind: 'failed'; work: Work; why: string };

/** Whether every step is measured, so that a report can be made. */
export const isSwept = (progress: SweepProgress | undefined): boolean =>
  progress !== undefined && (progress.kind === 'done' || progress.work === 'proof');

/** What a sweep has found so far. A new object each time something was added, though `result` is filled in place. */
export interface Swept {
  result: SweepResult;
  findings: Findings;
}

/** A file that was not opened, and why. */
export interface Rejected {
  fileName: string;
  problems: readonly Problem[];
  /** Whether it is a corner file with wrong values, which can be opened to correct them. */
  repairable: boolean;
}

interface CornerState {
  /** How many files have been opened: panels of one file keep nothing of the one before. */
  opened: number;
  corner: OpenCorner | undefined;
  /** Name of a file that is being read. */
  opening: string | undefined;
  /** Of the last file that could not be opened; what was open stays open. */
  rejected: Rejected | undefined;
  progress: SweepProgress | undefined;
  swept: Swept | undefined;
}

/** The corner in hand and what is known of it. Written by the session alone. */
export const useCorner = create<CornerState>(() => ({
  opened: 0,
  corner: undefined,
  opening: undefined,
  rejected: undefined,
  progress: undefined,
  swept: undefined,
}));
