import { startThreadPool } from '../executors/nodeThreads.ts';
import { FEWER_STEPS } from '../studies/fewerSteps.ts';
import { type Sensitivity, type SolidIds, sensitivityOf } from '../studies/sensitivity/sensitivity.ts';
import { type SweepAndProve, sweepAndProveBy } from '../studies/vary/measurePairs.ts';
import type { Context } from './context.ts';
import { EXIT, Failure } from './exit.ts';
import { settingsOf, threadsOf } from './measure.ts';
import { required, type Typed } from './options.ts';
import { pairTyped } from './pairTyped.ts';
import { progressOn } from './progress.ts';
import { rateThreads } from './rateThreads.ts';
import { namingFile, readCorner } from './readCorner.ts';

/**
 * Reads a corner, measures the effect of each of its values on some pairs, by default that of `--pair` or all, and passes
 * that on with the threads that measured it. The threads end after `use`.
 */
export async function withSensitivity<T>(
  typed: Typed,
  context: Context,
  use: (study: Sensitivity, measure: SweepAndProve) => Promise<T>,
  among = pairsTyped(typed),
): Promise<T> {
  const file = required('the corner file', typed.file);
  const settings = settingsOf(typed, FEWER_STEPS);
  const threads = threadsOf(typed);
  const design = await readCorner(file);
  const pool = startThreadPool(threads);
  const rates = rateThreads(threads);
  const measure = sweepAndProveBy(pool);
  const progress = progressOn(context, 'Changing values', typed.values.has('progress'));
  const { signal } = context;
  try {
    const study = await namingFile(file, () =>
      sensitivityOf(design, {
        settings,
        among,
        measure,
        rates: rates.measure,
        signal,
        onProgress: progress.update,
      }),
    )
      .catch((error: unknown) => {
        throw error instanceof RangeError ? new Failure(EXIT.usage, `--pair: ${error.message}`) : error;
      })
      .finally(() => {
        progress.end();
        rates.end();
      });
    return await use(study, measure);
  } finally {
    pool.end();
  }
}

/** The pair of `--pair`; undefined without it. */
function pairsTyped(typed: Typed): readonly SolidIds[] | undefined {
  const between = pairTyped(typed.values.get('pair'));
  return between && [between];
}
