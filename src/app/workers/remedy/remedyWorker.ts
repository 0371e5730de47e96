import { expose } from 'comlink';
import type { Design } from '../../../design/design.ts';
import { startBrowserPool } from '../../../executors/browserWorkers.ts';
import { figuresIn, type LengthUnit } from '../../../report/figures.ts';
import { type HitInWords, hitInWords, remedyScope } from '../../../report/remedy/remedyText.ts';
import { fewerSteps } from '../../../studies/fewerSteps.ts';
import { withRemedy } from '../../../studies/remedy/changedFile.ts';
import { remediesOf } from '../../../studies/remedy/remedy.ts';
import { sweepAndProveBy } from '../../../studies/vary/measurePairs.ts';
import type { SweepSettings } from '../../../sweep/result.ts';
import { rateWorkers } from '../rates/rateWorkers.ts';

/** The remedies of one pair. */
export interface FoundRemedies {
  /** By unit; undefined if the pair neither touches nor is tight. */
  hit: Record<LengthUnit, HitInWords> | undefined;
  /** Which values may change, and what the proposals rest on. */
  scope: readonly string[];
  /** Of each proposal: the file with its change. */
  sources: readonly unknown[];
}

const api = {
  /** Looks for changes that clear a pair, by the ids of its solids: see `remediesOf`. */
  async find(
    design: Design,
    settings: SweepSettings,
    between: readonly [string, string],
    onProgress: (done: number, total: number) => void,
  ): Promise<FoundRemedies> {
    const pool = startBrowserPool();
    const rates = rateWorkers();
    try {
      const study = await remediesOf(design, {
        settings: fewerSteps(settings),
        between,
        measure: sweepAndProveBy(pool),
        rates: rates.measure,
        onProgress,
      });
      const [hit] = study.hits;
      return {
        hit: hit && {
          mm: hitInWords(study, hit, figuresIn('mm')),
          in: hitInWords(study, hit, figuresIn('in')),
        },
        scope: remedyScope(study),
        sources: hit === undefined ? [] : hit.remedies.map(({ changes }) => withRemedy(design, changes)),
      };
    } finally {
      pool.end();
      rates.end();
    }
  },
};
export type RemedyApi = typeof api;
expose(api);
