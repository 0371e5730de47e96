import type { Design } from '../../design/design.ts';
import { crewOfWorkers } from '../../executors/browserWorkers.ts';
import { figuresIn, type LengthUnit } from '../../report/figures.ts';
import { fitSentences, scopeSentences } from '../../report/varied/fitSentences.ts';
import { variedRows } from '../../report/varied/variedRows.ts';
import { FEWER_STEPS } from '../../studies/fewerSteps.ts';
import { measurePairsBy } from '../../studies/vary/measurePairs.ts';
import { type Study, varyCorner } from '../../studies/vary/vary.ts';
import type { SweepSettings } from '../../sweep/result.ts';
import { axisAsked, type TypedRange } from './asked.ts';
import type { VariedTold } from './varyStore.ts';

export interface VaryRequest {
  design: Design;
  /** Of the corner's own sweep. */
  settings: SweepSettings;
  name: string;
  typed: TypedRange;
}

export type VaryReply =
  | { kind: 'progress'; done: number; total: number }
  | { kind: 'told'; told: Record<LengthUnit, VariedTold> }
  | { kind: 'failed'; why: string };

const reply = (message: VaryReply) => self.postMessage(message);

async function study({ design, settings, name, typed }: VaryRequest): Promise<Study> {
  const asked = axisAsked(design, name, typed);
  if ('problems' in asked) throw new Error(Object.values(asked.problems).join('; '));
  const crew = crewOfWorkers();
  try {
    return await varyCorner(design, [asked.axis], {
      settings: {
        ...settings,
        travelSteps: Math.min(settings.travelSteps, FEWER_STEPS.travelSteps),
        steerSteps: Math.min(settings.steerSteps, FEWER_STEPS.steerSteps),
      },
      measure: measurePairsBy(crew),
      onProgress: (done, total) => reply({ kind: 'progress', done, total }),
    });
  } finally {
    crew.end();
  }
}

/** In words here: what a study varies by cannot leave its thread. */
function toldIn(unit: LengthUnit, found: Study, { corner }: Design): VariedTold {
  const figures = figuresIn(unit);
  return {
    fits: fitSentences(found, corner, figures),
    scope: scopeSentences(found),
    rows: variedRows(found.cells, corner, figures),
  };
}

self.addEventListener('message', ({ data }: MessageEvent<VaryRequest>) => {
  study(data).then(
    (found) =>
      reply({
        kind: 'told',
        told: { mm: toldIn('mm', found, data.design), in: toldIn('in', found, data.design) },
      }),
    (error: Error) => reply({ kind: 'failed', why: error.message }),
  );
});
