import { type MeasuringError, measuringErrorOf } from '../studies/measuringError/measuringError.ts';
import type { Context } from './context.ts';
import type { Typed } from './options.ts';
import { progressOn } from './progress.ts';
import { withSensitivity } from './withSensitivity.ts';

/** Studies the measuring error of the corner and the pairs that were typed. */
export const measuringErrorTyped = (typed: Typed, context: Context): Promise<MeasuringError> =>
  withSensitivity(typed, context, (sensitivity, measure) => {
    const progress = progressOn(context, 'Building adverse corners, pairs', typed.values.has('progress'));
    const { signal } = context;
    return measuringErrorOf(sensitivity, { measure, signal, onProgress: progress.update }).finally(
      progress.end,
    );
  });
