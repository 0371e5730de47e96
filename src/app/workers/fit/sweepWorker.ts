import { expose } from 'comlink';
import type { Design } from '../../../design/design.ts';
import { startBrowserPool } from '../../../executors/browserWorkers.ts';
import type { LeastMargin } from '../../../studies/clocking/axis.ts';
import { validFirst } from '../../../studies/clocking/studyMountings.ts';
import { type SweptCandidate, sweepCandidates } from '../../../studies/clocking/sweepCandidates.ts';
import { FEWER_STEPS } from '../../../studies/fewerSteps.ts';
import { measurePairsBy } from '../../../studies/vary/measurePairs.ts';
import type { SweepSettings } from '../../../sweep/result.ts';
import type { FoundCandidate } from './fitFound.ts';

export interface SweepRequest {
  candidates: readonly FoundCandidate[];
  /** For each mounting: its corner, and the least margin of the pairs that no clocking changes. */
  designs: readonly Design[];
  unchanging: readonly LeastMargin[];
  leastMarginMm: number | undefined;
  /** Settings of the corner's own sweep. */
  settings: SweepSettings;
}

/** Sweeps candidates over all travel and lock. Returns them by worst margin, best first. */
async function sweep(
  request: SweepRequest,
  onProgress: (done: number, total: number) => void,
): Promise<readonly SweptCandidate<FoundCandidate>[]> {
  const { candidates, designs, unchanging, leastMarginMm, settings } = request;
  const pool = startBrowserPool();
  try {
    const swept = await sweepCandidates(candidates, ({ mounting }) => designs[mounting], {
      settings: {
        ...settings,
        travelSteps: Math.min(settings.travelSteps, FEWER_STEPS.travelSteps),
        steerSteps: Math.min(settings.steerSteps, FEWER_STEPS.steerSteps),
      },
      measure: measurePairsBy(pool),
      onProgress,
    });
    return validFirst(swept, ({ candidate }) => candidate.mounting, unchanging, leastMarginMm);
  } finally {
    pool.end();
  }
}

const api = { sweep };
export type SweepApi = typeof api;
expose(api);
