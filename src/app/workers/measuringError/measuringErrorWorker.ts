import { expose } from 'comlink';
import type { Design } from '../../../design/design.ts';
import { startBrowserPool } from '../../../executors/browserWorkers.ts';
import { figuresIn, type LengthUnit } from '../../../report/figures.ts';
import {
  type MeasuringErrorInWords,
  measuringErrorInWords,
} from '../../../report/measuringError/measuringErrorInWords.ts';
import { fewerSteps } from '../../../studies/fewerSteps.ts';
import { measuringErrorOf } from '../../../studies/measuringError/measuringError.ts';
import { type SolidIds, sensitivityOf } from '../../../studies/sensitivity/sensitivity.ts';
import { sweepAndProveBy } from '../../../studies/vary/measurePairs.ts';
import type { SweepSettings } from '../../../sweep/result.ts';
import { rateWorkers } from '../rates/rateWorkers.ts';
import type { OnStudyProgress } from '../studyRun.ts';

/** What moves the clearances, and what measuring errors can take from them, by unit. */
export type MeasuringErrorByUnit = Record<LengthUnit, MeasuringErrorInWords>;

const api = {
  /**
   * Measures how each value changes the clearance of each pair that is not far, or of some by the ids of their solids, and
   * what the ± of the values can take from it: see `sensitivityOf` and `measuringErrorOf`.
   */
  async study(
    design: Design,
    settings: SweepSettings,
    among: readonly SolidIds[] | undefined,
    onProgress: OnStudyProgress,
  ): Promise<MeasuringErrorByUnit> {
    const pool = startBrowserPool();
    const rates = rateWorkers();
    const measure = sweepAndProveBy(pool);
    try {
      const sensitivity = await sensitivityOf(design, {
        settings: fewerSteps(settings),
        among,
        measure,
        rates: rates.measure,
        onProgress: (done, total) => onProgress(done, total, 'values changed'),
      });
      const study = await measuringErrorOf(sensitivity, {
        measure,
        onProgress: (done, total) => onProgress(done, total, 'pairs verified'),
      });
      return {
        mm: measuringErrorInWords(study, figuresIn('mm')),
        in: measuringErrorInWords(study, figuresIn('in')),
      };
    } finally {
      pool.end();
      rates.end();
    }
  },
};
export type MeasuringErrorApi = typeof api;
expose(api);
