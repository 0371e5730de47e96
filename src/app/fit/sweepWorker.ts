import type { Design } from '../../design/design.ts';
import { crewOfWorkers } from '../../executors/browserWorkers.ts';
import type { LeastMargin } from '../../studies/clocking/axis.ts';
import { soundFirst } from '../../studies/clocking/studyMountings.ts';
import { type SweptCandidate, sweepCandidates } from '../../studies/clocking/sweepCandidates.ts';
import { FEWER_STEPS } from '../../studies/fewerSteps.ts';
import { measurePairsBy } from '../../studies/vary/measurePairs.ts';
import type { SweepSettings } from '../../sweep/result.ts';
import type { FoundCandidate } from './fitFound.ts';

export interface SweepRequest {
  candidates: readonly FoundCandidate[];
  /** Of each mounting: the corner mounted so, and the least margin of what no clocking changes. */
  designs: readonly Design[];
  unchanging: readonly LeastMargin[];
  leastMarginMm: number | undefined;
  /** Of the corner's own sweep. */
  settings: SweepSettings;
}

export type SweepReply =
  | { kind: 'progress'; done: number; total: number }
  | { kind: 'swept'; swept: readonly SweptCandidate<FoundCandidate>[] }
  | { kind: 'failed'; why: string };

const reply = (message: SweepReply) => self.postMessage(message);

async function sweep(request: SweepRequest): Promise<readonly SweptCandidate<FoundCandidate>[]> {
  const { candidates, designs, unchanging, leastMarginMm, settings } = request;
  const crew = crewOfWorkers();
  try {
    const swept = await sweepCandidates(candidates, ({ mounting }) => designs[mounting], {
      settings: {
        ...settings,
        travelSteps: Math.min(settings.travelSteps, FEWER_STEPS.travelSteps),
        steerSteps: Math.min(settings.steerSteps, FEWER_STEPS.steerSteps),
      },
      measure: measurePairsBy(crew),
      onProgress: (done, total) => reply({ kind: 'progress', done, total }),
    });
    return soundFirst(swept, ({ candidate }) => candidate.mounting, unchanging, leastMarginMm);
  } finally {
    crew.end();
  }
}

self.addEventListener('message', ({ data }: MessageEvent<SweepRequest>) => {
  sweep(data).then(
    (swept) => reply({ kind: 'swept', swept }),
    (error: Error) => reply({ kind: 'failed', why: error.message }),
  );
});
