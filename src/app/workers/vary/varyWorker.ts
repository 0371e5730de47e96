import { expose } from 'comlink';
import type { Design } from '../../../design/design.ts';
import { startBrowserPool } from '../../../executors/browserWorkers.ts';
import { figuresIn, type LengthUnit } from '../../../report/figures.ts';
import { fitSentences, scopeSentences } from '../../../report/varied/fitSentences.ts';
import { type VariedRow, variedRows } from '../../../report/varied/variedRows.ts';
import { fewerSteps } from '../../../studies/fewerSteps.ts';
import { measurePairsBy } from '../../../studies/vary/measurePairs.ts';
import { type Study, varyCorner } from '../../../studies/vary/vary.ts';
import type { SweepSettings } from '../../../sweep/result.ts';
import { type TypedRange, typedAxis } from './typedAxis.ts';

/** A study in words. */
export interface VariedResult {
  /** Values that fit, and what is in the way beyond them. */
  fits: readonly string[];
  /** Scope of the result. */
  scope: readonly string[];
  rows: readonly VariedRow[];
}

export interface VaryRequest {
  design: Design;
  /** Settings of the corner's own sweep. */
  settings: SweepSettings;
  name: string;
  typed: TypedRange;
}

async function study(
  { design, settings, name, typed }: VaryRequest,
  onProgress: (done: number, total: number) => void,
): Promise<Study> {
  const parsed = typedAxis(design, name, typed);
  if ('problems' in parsed) throw new Error(Object.values(parsed.problems).join('; '));
  const pool = startBrowserPool();
  try {
    return await varyCorner(design, [parsed.axis], {
      settings: fewerSteps(settings),
      measure: measurePairsBy(pool),
      onProgress,
    });
  } finally {
    pool.end();
  }
}

/** Words are made in the worker: the axis of a study cannot be sent to the page. */
function resultIn(unit: LengthUnit, found: Study, { corner }: Design): VariedResult {
  const figures = figuresIn(unit);
  return {
    fits: fitSentences(found, corner, figures),
    scope: scopeSentences(found, corner),
    rows: variedRows(found.cells, corner, figures),
  };
}

const api = {
  /** Varies a dimension or a list of a corner. Returns the result in words, by unit. */
  async vary(
    request: VaryRequest,
    onProgress: (done: number, total: number) => void,
  ): Promise<Record<LengthUnit, VariedResult>> {
    const found = await study(request, onProgress);
    return { mm: resultIn('mm', found, request.design), in: resultIn('in', found, request.design) };
  },
};
export type VaryApi = typeof api;
expose(api);
