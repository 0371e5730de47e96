import type { Pair, UncheckedPair } from './pair.ts';

/** Step counts, search limit and mesh tolerance of a sweep. */
export interface SweepSettings {
  travelSteps: number;
  steerSteps: number;
  /** Clearances up to this limit are exact; larger ones are `beyond`, mm. */
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
 * Clearance of every pair at every step. A step is `travelIndex * steer.length + steerIndex`; a pair's values begin
 * at `pairIndex * steps`. Angles in degrees, lengths in mm, points in vehicle axes at that pose, of the left corner.
 */
export interface SweepResult {
  /** Hash of the swept design. */
  designHash: string;
  settings: SweepSettings;
  /** From droop (negative) to bump. */
  travelMm: Float64Array;
  /** -1 (front edge inboard, at the rack's inboard limit) to +1. */
  steer: Float64Array;
  /** For each step, an index into POSE_STATES. */
  poseState: Uint8Array;
  /** For each step, the carriers of the layout, in its order, of 12 numbers each, `vehicleFromCarrier`. */
  carriers: Float64Array;
  residualMm: Float64Array;
  /** Road-wheel steer angle at each step; NaN if unreachable. */
  roadWheelAngleDeg: Float64Array;
  pairs: readonly Pair[];
  unchecked: readonly UncheckedPair[];
  /** For each pair and step, an index into CLEARANCE_KINDS. */
  state: Uint8Array;
  /** Signed clearance; +Infinity if beyond the limit; NaN if pending, unknown or unreachable. */
  clearanceMm: Float64Array;
  /** +Infinity if a depth has no upper bound: the clearance is then at most `clearanceMm`, errors included. */
  errorMm: Float64Array;
  /** For each pair and step, x y z on part a, then x y z on part b. */
  points: Float64Array;
}
