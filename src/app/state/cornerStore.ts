import { create } from 'zustand';
import type { Findings } from '../../findings/findings.ts';
import type { SweepResult } from '../../sweep/result.ts';
import type { Problem } from '../../units/problem.ts';
import type { OpenCorner } from './engine.ts';

/** First the sweep measures every step, then the proof covers the range between the steps. */
export type Work = 'sweep' | 'proof';

type SweepProgress =
  /** `cells`: number of cells that the proof has examined so far. */
  | { kind: 'running'; work: Work; done: number; total: number; cells: number }
  | { kind: 'done' }
  | { kind: 'cancelled'; work: Work }
  | { kind: 'failed'; work: Work; why: string };

/** Whether every step is measured; a report needs that. */
export const isSwept = (progress: SweepProgress | undefined): boolean =>
  progress !== undefined && (progress.kind === 'done' || progress.work === 'proof');

/** Result of a sweep so far. Each addition makes a new object, although `result` is filled in place. */
export interface Swept {
  result: SweepResult;
  findings: Findings;
}

/** A file that was not opened, with the reasons. */
interface RejectedFile {
  fileName: string;
  problems: readonly Problem[];
  /** Whether it is a corner file with wrong values, so that it can be opened to correct them. */
  repairable: boolean;
}

interface CornerState {
  /** Number of files opened so far; panels reset their state when it changes. */
  opened: number;
  corner: OpenCorner | undefined;
  /** Name of the file being read. */
  opening: string | undefined;
  /** The last file that could not be opened; the open file stays open. */
  rejected: RejectedFile | undefined;
  progress: SweepProgress | undefined;
  swept: Swept | undefined;
}

/** The current corner and its results. Only the session writes to it. */
export const useCorner = create<CornerState>(() => ({
  opened: 0,
  corner: undefined,
  opening: undefined,
  rejected: undefined,
  progress: undefined,
  swept: undefined,
}));
