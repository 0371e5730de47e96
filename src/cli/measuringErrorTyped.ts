import { type MeasuringError, measuringErrorOf } from '../studies/measuringError/measuringError.ts';
import type { Sensitivity, SolidIds } from '../studies/sensitivity/sensitivity.ts';
import type { SweepAndProve } from '../studies/vary/measurePairs.ts';
import type { Context } from './context.ts';
import type { Typed } from './options.ts';
import { progressOn } from './progress.ts';
import { withSensitivity } from './withSensitivity.ts';

/** Studies the measuring error of a corner: of some pairs, by default those that were typed. */
export const measuringErrorTyped = (
  typed: Typed,
  context: Context,
  among?: readonly SolidIds[],
): Promise<MeasuringError> => {
  const study = (sensitivity: Sensitivity, measure: SweepAndProve) => {
    const progress = progressOn(context, 'Building adverse corners, pairs', typed.values.has('progress'));
    const { signal } = context;
    return measuringErrorOf(sensitivity, { measure, signal, onProgress: progress.update }).finally(
      progress.end,
    );
  };
  return withSensitivity(typed, context, study, among);
};
