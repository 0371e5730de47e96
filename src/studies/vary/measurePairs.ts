import type { Crew } from '../../executors/crew.ts';
import { proveInProcess, sweepInProcess } from '../../executors/inProcess.ts';
import type { Findings } from '../../findings/findings.ts';
import { findingsOf } from '../../findings/findingsOf.ts';
import type { MeasuredLimit } from '../../sweep/limit.ts';
import type { Setup } from '../../sweep/setUp.ts';

/**
 * Measures the pairs of a corner over all its travel and steering; on threads, or here. `limits`: those that the verdict
 * counts, beside the pairs. `onShare`: how much is done, 0 to 1.
 */
export type MeasurePairs = (
  setup: Setup,
  limits: readonly MeasuredLimit[],
  signal?: AbortSignal,
  onShare?: (share: number) => void,
) => Promise<Findings>;

/** Progress of one half of what is measured, the steps or the proof. */
const halfOf =
  (onShare: ((share: number) => void) | undefined, begins: number) =>
  (done: number, total: number): void =>
    onShare?.(begins + done / Math.max(1, total) / 2);

/** Measures at the steps and proves what lies between them, in the calling thread. */
export const measurePairsHere: MeasurePairs = async (setup, limits, signal, onShare) => {
  const result = await sweepInProcess(setup, { signal, onProgress: halfOf(onShare, 0) });
  return findingsOf(
    result,
    limits,
    await proveInProcess(setup, result, { signal, onProgress: halfOf(onShare, 0.5) }),
  );
};

/** Measures at the steps and proves what lies between them, by a crew. */
export const measurePairsBy =
  (crew: Crew): MeasurePairs =>
  async (setup, limits, signal, onShare) => {
    crew.take(setup);
    const result = await crew.sweep({ signal, onProgress: halfOf(onShare, 0) });
    return findingsOf(result, limits, await crew.prove(result, { signal, onProgress: halfOf(onShare, 0.5) }));
  };

/** Measures pairs that never move against each other, and no limits: ride height stands for every pose. */
export async function measureFitPairs(setup: Setup): Promise<Findings> {
  const rideHeight = Float64Array.of(0);
  const settings = { ...setup.settings, travelSteps: 1, steerSteps: 1 };
  const result = await sweepInProcess({ ...setup, settings, travelMm: rideHeight, steer: rideHeight });
  return findingsOf(result, []);
}

/** A corner with some of its pairs alone. */
export const withPairs = (setup: Setup, pairs: readonly number[]): Setup => ({
  ...setup,
  pairs: pairs.map((pair) => setup.pairs[pair]),
  bodies: pairs.map((pair) => setup.bodies[pair]),
  unchecked: [],
});
