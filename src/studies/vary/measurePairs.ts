import { proveInProcess, sweepInProcess } from '../../executors/inProcess.ts';
import type { WorkerPool } from '../../executors/workerPool.ts';
import type { Findings } from '../../findings/findings.ts';
import { findingsOf } from '../../findings/findingsOf.ts';
import type { MeasuredLimit } from '../../sweep/limit.ts';
import type { SweepResult } from '../../sweep/result.ts';
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

/** A swept corner with its findings, which hold between the steps too. */
export interface SweptCorner {
  result: SweepResult;
  findings: Findings;
}

/** As `MeasurePairs`, with the sweep. */
export type SweepAndProve = (...given: Parameters<MeasurePairs>) => Promise<SweptCorner>;

/** Measures at the steps and proves between them, in the calling thread. */
export const sweepAndProveHere: SweepAndProve = async (setup, limits, signal, onShare) => {
  const result = await sweepInProcess(setup, { signal, onProgress: halfOf(onShare, 0) });
  const proof = await proveInProcess(setup, result, { signal, onProgress: halfOf(onShare, 0.5) });
  return { result, findings: findingsOf(result, limits, proof) };
};

/** Measures at the steps and proves between them, on a worker pool. */
export const sweepAndProveBy =
  (pool: WorkerPool): SweepAndProve =>
  async (setup, limits, signal, onShare) => {
    pool.setCorner(setup);
    const result = await pool.sweep({ signal, onProgress: halfOf(onShare, 0) });
    const proof = await pool.prove(result, { signal, onProgress: halfOf(onShare, 0.5) });
    return { result, findings: findingsOf(result, limits, proof) };
  };

/** As `sweepAndProveHere`, without the sweep. */
export const measurePairsHere: MeasurePairs = async (...given) =>
  (await sweepAndProveHere(...given)).findings;

/** As `sweepAndProveBy`, without the sweep. */
export const measurePairsBy =
  (pool: WorkerPool): MeasurePairs =>
  async (...given) =>
    (await sweepAndProveBy(pool)(...given)).findings;

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
