import { proveInProcess, sweepInProcess } from '../../executors/inProcess.ts';
import type { WorkerPool } from '../../executors/workerPool.ts';
import type { Findings } from '../../findings/findings.ts';
import { findingsOf } from '../../findings/findingsOf.ts';
import type { MeasuredLimit } from '../../sweep/limit.ts';
import type { Setup } from '../../sweep/setUp.ts';

/**
 * Measures the pairs of a corner over all its travel and steering, on threads or in the calling thread. `limits`:
 * limits that the verdict includes. `onShare`: the fraction done, 0 to 1.
 */
export type MeasurePairs = (
  setup: Setup,
  limits: readonly MeasuredLimit[],
  signal?: AbortSignal,
  onShare?: (share: number) => void,
) => Promise<Findings>;

/** Progress of one half of the work, the steps or the proof. */
const halfOf =
  (onShare: ((share: number) => void) | undefined, start: number) =>
  (done: number, total: number): void =>
    onShare?.(start + done / Math.max(1, total) / 2);

/** Measures at the steps and proves between them, in the calling thread. */
export const measurePairsHere: MeasurePairs = async (setup, limits, signal, onShare) => {
  const result = await sweepInProcess(setup, { signal, onProgress: halfOf(onShare, 0) });
  return findingsOf(
    result,
    limits,
    await proveInProcess(setup, result, { signal, onProgress: halfOf(onShare, 0.5) }),
  );
};

/** Measures at the steps and proves between them, on a worker pool. */
export const measurePairsBy =
  (pool: WorkerPool): MeasurePairs =>
  async (setup, limits, signal, onShare) => {
    pool.setCorner(setup);
    const result = await pool.sweep({ signal, onProgress: halfOf(onShare, 0) });
    return findingsOf(result, limits, await pool.prove(result, { signal, onProgress: halfOf(onShare, 0.5) }));
  };

/** Measures fit pairs, without limits: ride height represents every pose. */
export async function measureFitPairs(setup: Setup): Promise<Findings> {
  const rideHeight = Float64Array.of(0);
  const settings = { ...setup.settings, travelSteps: 1, steerSteps: 1 };
  const result = await sweepInProcess({ ...setup, settings, travelMm: rideHeight, steer: rideHeight });
  return findingsOf(result, []);
}

/** A corner with only some of its pairs. */
export const withPairs = (setup: Setup, pairs: readonly number[]): Setup => ({
  ...setup,
  pairs: pairs.map((pair) => setup.pairs[pair]),
  bodies: pairs.map((pair) => setup.bodies[pair]),
  unchecked: [],
});
