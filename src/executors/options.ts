import type { SweepResult } from '../sweep/result.ts';

export interface SweepOptions {
  /** Ends the sweep early; the promise is then rejected with the signal's reason and nothing partial is returned. */
  signal?: AbortSignal;
  /** Rows done, of all rows. */
  onProgress?: (done: number, total: number) => void;
  /** The result so far, after each row; steps not yet done are pending. The same object each time. */
  onPartial?: (result: SweepResult) => void;
}

export interface ProofOptions {
  /** Greatest width of the proved intervals, mm; PROOF_TOLERANCE_MM unless told. */
  toleranceMm?: number;
  /** As for a sweep. */
  signal?: AbortSignal;
  /** Pairs done, of all pairs. */
  onProgress?: (done: number, total: number) => void;
  /** Cells looked at so far, of all pairs; a few times a second, also within one pair. */
  onCells?: (cells: number) => void;
}
