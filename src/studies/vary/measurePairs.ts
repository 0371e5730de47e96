import type { Crew } from '../../executors/crew.ts';
import { proveInProcess, sweepInProcess } from '../../executors/inProcess.ts';
import type { Findings } from '../../findings/findings.ts';
import { findingsOf } from '../../findings/findingsOf.ts';
import type { Setup } from '../../sweep/setUp.ts';

/** Measures the pairs of a corner over all its travel and steering; on threads, or here. */
export type MeasurePairs = (setup: Setup, signal?: AbortSignal) => Promise<Findings>;

/** Measures at the steps and proves what lies between them, in the calling thread. */
export const measurePairsHere: MeasurePairs = async (setup, signal) => {
  const result = await sweepInProcess(setup, { signal });
  return findingsOf(result, await proveInProcess(setup, result, { signal }));
};

/** Measures at the steps and proves what lies between them, by a crew. */
export const measurePairsBy =
  (crew: Crew): MeasurePairs =>
  async (setup, signal) => {
    crew.take(setup);
    const result = await crew.sweep({ signal });
    return findingsOf(result, await crew.prove(result, { signal }));
  };

/** Measures pairs that never move against each other: ride height stands for every pose. */
export async function measureFitPairs(setup: Setup): Promise<Findings> {
  const rideHeight = Float64Array.of(0);
  const settings = { ...setup.settings, travelSteps: 1, steerSteps: 1 };
  return findingsOf(await sweepInProcess({ ...setup, settings, travelMm: rideHeight, steer: rideHeight }));
}

/** A corner with some of its pairs alone. */
export const withPairs = (setup: Setup, pairs: readonly number[]): Setup => ({
  ...setup,
  pairs: pairs.map((pair) => setup.pairs[pair]),
  bodies: pairs.map((pair) => setup.bodies[pair]),
  unchecked: [],
});
