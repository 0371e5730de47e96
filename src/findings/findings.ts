import type { UncheckedPair } from '../sweep/pair.ts';
import type { LockedOut, PairAtPose } from '../sweep/prove.ts';
import type { LimitFinding, LimitState } from './limitFindings.ts';

/** touches: contact cannot be excluded (clearance <= its error). tight: margin, less its error, below 0. */
export type PairState = 'touches' | 'tight' | 'clear' | 'far' | 'unknown';

/** A pair's worst case found, at a step or, where a proof came upon less, between steps. */
export interface TightSpot extends PairAtPose {
  /** clearance - target - allowances. */
  marginMm: number;
}

export interface PairFinding {
  /** Index into the sweep's pairs. */
  pair: number;
  state: PairState;
  /** Undefined for far pairs and for pairs of which nothing is known. */
  worst: TightSpot | undefined;
  /**
   * No pose that is reached, at a step or between steps, has a clearance below this, as measured between the meshes; the
   * error of the worst case comes off it. Undefined where nothing is proved: the pair touches, there is no proof yet, or
   * none was to be had.
   */
  provenMm: number | undefined;
  /** Steps at which this pair could not be told, apart from unreachable poses. */
  unknownSteps: number;
}

export interface Findings {
  /** What binds counts as what touches. `incomplete` while a sweep goes on or limits are not computed. */
  verdict: 'touches' | 'tight' | 'clear' | 'unknown' | 'incomplete';
  counts: Record<PairState, number>;
  /** By margin, least first; unknown before far, far last. */
  pairs: readonly PairFinding[];
  /** Joints and dampers: what binds first, then unknown ones, then clear ones. Empty while they are not computed. */
  limits: readonly LimitFinding[];
  limitCounts: Record<LimitState, number>;
  /** 1 at each step where a joint or damper binds, else 0. */
  bindingSteps: Uint8Array;
  unchecked: readonly UncheckedPair[];
  unreachableSteps: readonly number[];
  solvedSteps: number;
  /** Parts of the rectangle in which nothing is proved, as the mechanism locks out there; undefined without a proof. */
  lockedOut: readonly LockedOut[] | undefined;
  /** Worst margin over all pairs at each step; NaN where unreachable or pending, +Infinity where all are far. */
  worstMarginMm: Float64Array;
}
