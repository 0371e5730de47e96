import { expose } from 'comlink';
import type { Design } from '../../../design/design.ts';
import { startBrowserPool } from '../../../executors/browserWorkers.ts';
import { fewerSteps } from '../../../studies/fewerSteps.ts';
import { type LockOutDistance, lockOutDistances } from '../../../studies/limits/lockOuts.ts';
import {
  type ShownStops,
  STOP_KINDS,
  type StopKind,
  stopsOf,
  withStop,
} from '../../../studies/limits/stops.ts';
import { sweepAndProveBy } from '../../../studies/vary/measurePairs.ts';
import type { SweepSettings } from '../../../sweep/result.ts';
import type { OnStudyProgress } from '../studyRun.ts';

/** Stops of a corner; the page adds the corner itself. */
export interface FoundStops {
  stops: Omit<ShownStops, 'setup'>;
  lockOuts: readonly LockOutDistance[];
  /** The file with each stop. */
  sources: Readonly<Partial<Record<StopKind, unknown>>>;
}

const api = {
  /** Finds the usable part of travel and lock, and the stops: see `stopsOf`. */
  async find(design: Design, settings: SweepSettings, onProgress: OnStudyProgress): Promise<FoundStops> {
    const pool = startBrowserPool();
    try {
      const study = await stopsOf(design, {
        settings: fewerSteps(settings),
        measure: sweepAndProveBy(pool),
        onProgress,
      });
      const { setup, result, findings, ...light } = study;
      const stops = { ...light, findings: { limits: findings.limits } };
      const sources: Partial<Record<StopKind, unknown>> = {};
      for (const kind of STOP_KINDS) {
        const stop = study.stops[kind];
        if (stop !== undefined) sources[kind] = withStop(design, stop);
      }
      return { stops, lockOuts: lockOutDistances(design.corner), sources };
    } finally {
      pool.end();
    }
  },
};
export type LimitsApi = typeof api;
expose(api);
