import type { Vec3 } from '../math/vec.ts';
import type { UncheckedPair } from '../sweep/pair.ts';

/** touches: contact cannot be excluded (clearance <= its error). tight: margin, less its error, below 0. */
export type PairState = 'touches' | 'tight' | 'clear' | 'far' | 'unknown';

/** A pair's worst case. */
export interface TightSpot {
  /** Index of the step. */
  step: number;
  travelMm: number;
  steer: number;
  roadWheelAngleDeg: number;
  clearanceMm: number;
  /** The clearance is right to within this: both chord errors, the solver's residual, the query's own bound. */
  errorMm: number;
  /** clearance - target - allowances. */
  marginMm: number;
  /** Vehicle axes at the pose, left corner. */
  pointA: Vec3;
  pointB: Vec3;
}

export interface PairFinding {
  /** Index into the sweep's pairs. */
  pair: number;
  state: PairState;
  /** Undefined for far pairs and for pairs of which nothing is known. */
  worst: TightSpot | undefined;
  /** Steps at which this pair could not be told, apart from unreachable poses. */
  unknownSteps: number;
}

export interface Findings {
  /** `incomplete` while a sweep goes on. */
  verdict: 'touches' | 'tight' | 'clear' | 'unknown' | 'incomplete';
  counts: Record<PairState, number>;
  /** By margin, least first; unknown before far, far last. */
  pairs: readonly PairFinding[];
  unchecked: readonly UncheckedPair[];
  unreachableSteps: readonly number[];
  solvedSteps: number;
  /** Worst margin over all pairs at each step; NaN where unreachable or pending, +Infinity where all are far. */
  worstMarginMm: Float64Array;
}
