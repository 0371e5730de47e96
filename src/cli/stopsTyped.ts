import type { Design } from '../design/design.ts';
import { startThreadPool } from '../executors/nodeThreads.ts';
import { type StopOptions, type StopStudy, stopsOf } from '../studies/limits/stops.ts';
import { sweepAndProveBy } from '../studies/vary/measurePairs.ts';
import type { Context } from './context.ts';
import { threadsOf } from './measure.ts';
import type { Typed } from './options.ts';
import { progressOn } from './progress.ts';

/** Finds the stops of a corner on threads that end with it. */
export function stopsTyped(
  design: Design,
  typed: Typed,
  context: Context,
  options: Pick<StopOptions, 'settings' | 'goal'>,
): Promise<StopStudy> {
  const pool = startThreadPool(threadsOf(typed));
  const progress = progressOn(context, 'Finding stops, sweeps', typed.values.has('progress'));
  return stopsOf(design, {
    ...options,
    measure: sweepAndProveBy(pool),
    signal: context.signal,
    onProgress: progress.update,
  }).finally(() => {
    progress.end();
    pool.end();
  });
}
