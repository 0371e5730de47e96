import type { LockedOut, PairAtPose } from '../proof/prove.ts';
import type { UncheckedPair } from '../sweep/pair.ts';
import type { LimitFinding, LimitState } from './limitFindings.ts';

/** touches: contact cannot be excluded (clearance <= its error). tight: the margin, less its error, is below 0. */
export type PairState = 'touches' | 'tight' | 'clear' | 'far' | 'unknown';

/** A pair's worst case found, at a step or, with a proof, between steps. */
export interface TightSpot extends PairAtPose {
  /** clearance - target - allowances. */
  marginMm: number;
}

export interface PairFinding {
  /** Index into the sweep's pairs. */
  pair: number;
  state: PairState;
  /** Undefined for far pairs and for pairs without any measurement. */
  worst: TightSpot | undefined;
  /**
   * Proven lower bound of the clearance between the meshes at all reached poses, at steps and between them. The error
   * of the worst case must be subtracted. Undefined if the pair touches, there is no proof yet, or the proof failed.
   */
  provenMm: number | undefined;
  /** Number of reached steps with an unknown clearance. */
  unknownSteps: number;
}

export interface Findings {
  /**
   * `touches` if any pair touches or any limit binds; `incomplete` while a sweep is running or limits are not
   * computed.
   */
  verdict: 'touches' | 'tight' | 'clear' | 'unknown' | 'incomplete';
  counts: Record<PairState, number>;
  /** Sorted: touching pairs, then unknown ones, then by margin with the smallest first, then far ones. */
  pairs: readonly PairFinding[];
  /** Joints and dampers: binding ones first, then unknown ones, then clear ones. Empty while they are not computed. */
  limits: readonly LimitFinding[];
  limitCounts: Record<LimitState, number>;
  /** 1 at each step where a joint or damper binds, else 0. */
  bindingSteps: Uint8Array;
  unchecked: readonly UncheckedPair[];
  unreachableSteps: readonly number[];
  solvedSteps: number;
  /** Parts of the rectangle without a proof, because the mechanism locks out there; undefined without a proof. */
  lockedOut: readonly LockedOut[] | undefined;
  /** Smallest margin over all pairs at each step; NaN if unreachable or pending, +Infinity if all pairs are far. */
  worstMarginMm: Float64Array;
}
