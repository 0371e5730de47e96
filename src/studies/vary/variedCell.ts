import type { AxisValue } from './axis.ts';
import type { TrialResult } from './trials.ts';

/** The result of one value of the axis, or of one value of each of two axes. */
export interface VariedCell {
  values: readonly AxisValue[];
  tried: TrialResult;
}
