import { type Proof, type ProvedPair, Prover, stepsOfPair } from '../proof/prove.ts';
import { pendingResult, placeRow } from '../sweep/assemble.ts';
import type { SweepResult } from '../sweep/result.ts';
import { RowSweeper } from '../sweep/row.ts';
import type { Setup } from '../sweep/setUp.ts';
import { bandsCoarseToFine } from '../sweep/steps.ts';
import type { ProofOptions, SweepOptions } from './options.ts';
import { yieldToOthers } from './yieldToOthers.ts';

/** Interval at which a proof yields to other work, ms. */
const YIELD_INTERVAL_MS = 50;

/** Sweeps in the calling thread, one band of rows after another, and yields to other work between bands. */
export async function sweepInProcess(setup: Setup, options: SweepOptions = {}): Promise<SweepResult> {
  const { signal, onProgress, onPartial } = options;
  const result = pendingResult(setup);
  const sweeper = new RowSweeper(setup);
  let done = 0;
  for (const band of bandsCoarseToFine(setup.travelMm.length)) {
    signal?.throwIfAborted();
    const travelsMm = band.map((travelIndex) => setup.travelMm[travelIndex]);
    sweeper.sweepBand(travelsMm, setup.steer).forEach((row, k) => {
      placeRow(result, band[k], row);
    });
    done += band.length;
    onProgress?.(done, setup.travelMm.length);
    onPartial?.(result);
    await yieldToOthers();
  }
  signal?.throwIfAborted();
  return result;
}

/**
 * Proves every pair of a complete sweep in the calling thread and yields to other work between cells. Rejects with
 * the signal's reason when cancelled, and with a RangeError for a tolerance that is not above 0.
 */
export async function proveInProcess(
  setup: Setup,
  result: SweepResult,
  options: ProofOptions = {},
): Promise<Proof> {
  const { signal, onProgress, onCells, toleranceMm } = options;
  signal?.throwIfAborted();
  const prover = new Prover(setup, result, toleranceMm);
  const pairs: ProvedPair[] = [];
  let cells = 0;
  let nextYieldMs = performance.now() + YIELD_INTERVAL_MS;
  const pause = async () => {
    await yieldToOthers();
    signal?.throwIfAborted();
    nextYieldMs = performance.now() + YIELD_INTERVAL_MS;
  };
  for (let pair = 0; pair < result.pairs.length; pair++) {
    const proof = prover.stepThrough(pair, stepsOfPair(result, pair));
    let step = proof.next();
    for (; step.done !== true; step = proof.next()) {
      if (performance.now() < nextYieldMs) continue;
      onCells?.(cells + step.value);
      await pause();
    }
    pairs.push(step.value);
    cells += step.value.cells;
    onProgress?.(pair + 1, result.pairs.length);
    if (performance.now() >= nextYieldMs) await pause();
  }
  signal?.throwIfAborted();
  return { pairs, lockedOut: prover.lockedOut };
}
