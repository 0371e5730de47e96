import { pendingResult, placeRow } from '../sweep/assemble.ts';
import type { SweepResult } from '../sweep/result.ts';
import { RowSweeper } from '../sweep/row.ts';
import type { Setup } from '../sweep/setUp.ts';
import { coarseToFine } from '../sweep/steps.ts';
import type { SweepOptions } from './options.ts';

/** Sweeps in the calling thread, one row after the other, giving way to other work between rows. */
export async function sweepInProcess(setup: Setup, options: SweepOptions = {}): Promise<SweepResult> {
  const { signal, onProgress, onPartial } = options;
  const result = pendingResult(setup);
  const sweeper = new RowSweeper(setup);
  const order = coarseToFine(setup.travelMm.length);
  for (const [done, travelIndex] of order.entries()) {
    signal?.throwIfAborted();
    placeRow(result, travelIndex, sweeper.sweep(setup.travelMm[travelIndex], setup.steer));
    onProgress?.(done + 1, order.length);
    onPartial?.(result);
    await new Promise((resolve) => setTimeout(resolve, 0));
  }
  signal?.throwIfAborted();
  return result;
}
