import type { FitApi } from '../../workers/fit/fitWorkerEntry.ts';
import { RemoteWorker } from '../../workers/remote.ts';

/** A worker loaded ahead of the first study. */
let waiting: RemoteWorker<FitApi> | undefined;

const start = () =>
  new RemoteWorker<FitApi>(
    new Worker(new URL('../../workers/fit/fitWorkerEntry.ts', import.meta.url), { type: 'module' }),
  );

/** Loads the worker ahead of time, so that the sheet's first map appears sooner. */
export function readyFitWorker(): void {
  waiting ??= start();
}

/** Returns a worker for clocking studies. The caller ends it. */
export function takeFitWorker(): RemoteWorker<FitApi> {
  // A worker that failed to load is not used; the next one reports why.
  const taken = waiting === undefined || waiting.ended ? start() : waiting;
  waiting = undefined;
  return taken;
}
