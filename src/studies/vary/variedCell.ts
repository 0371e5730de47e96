import type { AxisValue } from './axis.ts';
import type { Tried } from './trials.ts';

/** What came of one value of the axis, or of one value of each of two. */
export interface VariedCell {
  values: readonly AxisValue[];
  tried: Tried;
}
