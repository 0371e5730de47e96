import type { Vec3 } from '../math/vec.ts';

/**
 * jointTilt: a joint's bolt may tilt in its housing by so much. damperClosed: a damper's mounts may come so near each other.
 * damperOpen: they may go so far apart.
 */
export type LimitKind = 'jointTilt' | 'damperClosed' | 'damperOpen';

/** Where an allowed value comes from. */
export interface AllowedFrom {
  /** Given in the file, computed from other dimensions, or not known. */
  how: 'typed' | 'computed' | 'missing';
  /** The field of the part that gives it. */
  field: 'allowedTiltDeg' | 'closedLength' | 'openLength';
  /** What it is computed from, in words and mm. */
  dimensions: readonly { name: string; mm: number }[];
}

/** A limit of a joint or damper over all steps of a sweep, and over all poses. Degrees for a tilt, mm for a length. */
export interface MeasuredLimit {
  kind: LimitKind;
  /** Index into `corner.parts`. */
  partIndex: number;
  label: string;
  unit: 'deg' | 'mm';
  /** Undefined where it is missing. */
  allowed: number | undefined;
  allowedFrom: AllowedFrom;
  /** Tilt or length at each step; NaN where unreachable. */
  usedAtSteps: Float64Array;
  /** The worst pose found, at a step or between steps; undefined where no pose is reached. */
  worst: LimitPose | undefined;
  /**
   * No pose that the suspension is shown to reach goes beyond this tilt or length: the greatest, of damperClosed the least.
   * Undefined where nothing is proved.
   */
  proven: number | undefined;
  /** Whether the proof closed in to within LIMIT_TOLERANCE of `worst`. */
  complete: boolean;
  /** The direction of the housing that leaves most tilt; undefined for a damper and where there is none. */
  betterHousing: BetterHousing | undefined;
}

export interface LimitPose {
  travelMm: number;
  steer: number;
  roadWheelAngleDeg: number;
  used: number;
}

/** A direction of a joint's housing and what comes of it. */
export interface BetterHousing {
  /** As to enter in `housingDirection`: vehicle axes of the left corner at ride height. */
  direction: Vec3;
  /** With it no pose tilts the joint further than this, degrees. */
  mostTiltDeg: number;
}

/** Widest gap between the worst pose found and what is proved, degrees or mm. */
export const LIMIT_TOLERANCE = 0.01;
