import type { Pair, UncheckedPair } from './pair.ts';

/** What is swept, and how finely. */
export interface SweepSettings {
  travelSteps: number;
  steerSteps: number;
  /** Clearances are exact up to here and `beyond` after, mm. */
  limitMm: number;
  chordToleranceMm: number;
}

export const DEFAULT_SETTINGS: SweepSettings = {
  travelSteps: 41,
  steerSteps: 21,
  limitMm: 60,
  chordToleranceMm: 0.05,
};

export const POSE_STATES = ['pending', 'solved', 'unreachable'] as const;

/**
 * Every pair at every step. A step is `travelIndex * steer.length + steerIndex`; a pair's values begin at
 * `pairIndex * steps`. Angles in degrees, lengths in mm, points in vehicle axes at that pose, of the left corner.
 */
export interface SweepResult {
  /** Hash of the design that made it. */
  designHash: string;
  settings: SweepSettings;
  /** Droop (negative) to bump. */
  travelMm: Float64Array;
  /** -1 (front edge inboard, at the rack's inboard limit) to +1. */
  steer: Float64Array;
  /** Of each step: index into POSE_STATES. */
  poseState: Uint8Array;
  /** Of each step: 9 carriers (order of CARRIERS) of 12 numbers, `vehicleFromCarrier`. */
  carriers: Float64Array;
  residualMm: Float64Array;
  /** Road-wheel steer angle at each step; NaN where unreachable. */
  roadWheelAngleDeg: Float64Array;
  pairs: readonly Pair[];
  unchecked: readonly UncheckedPair[];
  /** Of each pair and step: index into CLEARANCE_KINDS. */
  state: Uint8Array;
  /** Signed clearance; +Infinity where beyond, NaN where pending, unknown or unreachable. */
  clearanceMm: Float64Array;
  /** +Infinity where a depth has no upper bound: the clearance is then at most `clearanceMm`, errors included. */
  errorMm: Float64Array;
  /** Of each pair and step: x y z on part a, x y z on part b. */
  points: Float64Array;
}
