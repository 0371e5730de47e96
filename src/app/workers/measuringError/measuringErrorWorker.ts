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
import type { RatesPool } from '../../../studies/sensitivity/ratesPool.ts';
import { type SolidIds, sensitivityOf } from '../../../studies/sensitivity/sensitivity.ts';
import { sweepAndProveBy, sweepAndProveHere } from '../../../studies/vary/measurePairs.ts';
import type { SweepSettings } from '../../../sweep/result.ts';
import { rateWorkers } from '../rates/rateWorkers.ts';
import type { OnStudyProgress } from '../studyRun.ts';

/** What moves the clearances, and what measuring errors can take from them, by unit. */
export type MeasuringErrorByUnit = Record<LengthUnit, MeasuringErrorInWords>;

/** Kept from one study to the next, because starting them takes longer than the study of a pair. */
let rates: RatesPool | undefined = rateWorkers();
let running = new AbortController();

const api = {
  /**
   * Measures how each value changes the clearance of each pair that is not far, or of some by the ids of their solids, and
   * what the ± of the values can take from it: see `sensitivityOf` and `measuringErrorOf`. Cancels a running study, which
   * then rejects.
   */
  async study(
    design: Design,
    settings: SweepSettings,
    among: readonly SolidIds[] | undefined,
    onProgress: OnStudyProgress,
  ): Promise<MeasuringErrorByUnit> {
    running.abort();
    running = new AbortController();
    const { signal } = running;
    rates ??= rateWorkers();
    // A few pairs are swept here before a pool has started.
    const pool = among === undefined ? startBrowserPool() : undefined;
    const measure = pool === undefined ? sweepAndProveHere : sweepAndProveBy(pool);
    try {
      const sensitivity = await sensitivityOf(design, {
        settings: fewerSteps(settings),
        among,
        measure,
        rates: rates.measure,
        signal,
        onProgress: (done, total) => onProgress(done, total, 'values changed'),
      });
      const study = await measuringErrorOf(sensitivity, {
        measure,
        signal,
        onProgress: (done, total) => onProgress(done, total, 'pairs verified'),
      });
      return {
        mm: measuringErrorInWords(study, figuresIn('mm')),
        in: measuringErrorInWords(study, figuresIn('in')),
      };
    } catch (error) {
      // One of them may have died.
      if (!signal.aborted) {
        rates?.end();
        rates = undefined;
      }
      throw error;
    } finally {
      pool?.end();
    }
  },

  /** Cancels a running study, which then rejects. */
  cancel(): void {
    running.abort();
  },
};
export type MeasuringErrorApi = typeof api;
expose(api);
