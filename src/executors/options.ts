import type { SweepResult } from '../sweep/result.ts';

export interface SweepOptions {
  /** Cancels the sweep; the promise then rejects with the signal's reason and no partial result is returned. */
  signal?: AbortSignal;
  /** Number of rows done and number of all rows. */
  onProgress?: (done: number, total: number) => void;
  /** The partial result after each band; steps that are not done are pending. The same object each time. */
  onPartial?: (result: SweepResult) => void;
}

export interface ProofOptions {
  /** Largest width of the proved intervals, mm; PROOF_TOLERANCE_MM by default. */
  toleranceMm?: number;
  /** Cancels the proof, as for a sweep. */
  signal?: AbortSignal;
  /** Number of pairs done and number of all pairs. */
  onProgress?: (done: number, total: number) => void;
  /** Number of cells searched so far over all pairs; called a few times a second, also within one pair. */
  onCells?: (cells: number) => void;
}
