import type { Corner, DriveShaft } from '../design/schema.ts';
import type { Vec3 } from '../math/vec.ts';

/**
 * jointTilt: the largest tilt of a joint's bolt in its housing. damperClosed: the smallest distance between a
 * damper's mounts. damperOpen: the largest. shaftInner, shaftOuter: the largest angle of a joint of the drive shaft.
 * shaftIn, shaftOut: by how much the distance between these joints shrinks or grows from ride height. hoseLength: the
 * largest straight distance between the ends of the brake hose.
 */
export type LimitKind =
  | 'jointTilt'
  | 'damperClosed'
  | 'damperOpen'
  | 'shaftInner'
  | 'shaftOuter'
  | 'shaftIn'
  | 'shaftOut'
  | 'hoseLength';

/** Whether a limit is an angle; the others are lengths. */
export const isAngleLimit = (kind: LimitKind): boolean =>
  kind === 'jointTilt' || kind === 'shaftInner' || kind === 'shaftOuter';

/** The part, or the group of the file, that a limit belongs to: the id of a part, "driveShaft" or "brakeHose". */
export const limitOwner = (
  { parts }: Pick<Corner, 'parts'>,
  { kind, partIndex }: Pick<MeasuredLimit, 'kind' | 'partIndex'>,
): string =>
  partIndex !== undefined ? parts[partIndex].id : kind === 'hoseLength' ? 'brakeHose' : 'driveShaft';

/** Where an allowed value comes from. */
export interface AllowedFrom {
  /** Typed in the file, computed from other dimensions, or unknown. */
  how: 'typed' | 'computed' | 'missing';
  /** The field of the part or group that sets the value. */
  field:
    | 'allowedTiltDeg'
    | 'closedLength'
    | 'openLength'
    | keyof Omit<DriveShaft, 'inner' | 'outer' | 'innerDirection'>
    | 'length';
  /** Dimensions that the value is computed from: name and mm. */
  dimensions: readonly { name: string; mm: number }[];
}

/**
 * A limit of a joint or damper over all steps of a sweep and over all poses between them. Degrees for a tilt, mm for
 * a length.
 */
export interface MeasuredLimit {
  kind: LimitKind;
  /** Index into `corner.parts`; undefined for drive shaft and brake hose. */
  partIndex: number | undefined;
  label: string;
  unit: 'deg' | 'mm';
  /** Undefined if unknown. */
  allowed: number | undefined;
  allowedFrom: AllowedFrom;
  /** Tilt or length at each step; NaN at unreachable steps. */
  usedAtSteps: Float64Array;
  /** The worst pose found, at a step or between steps; undefined if no pose is reached. */
  worst: LimitPose | undefined;
  /**
   * Proven bound over all poses that the suspension is shown to reach: an upper bound, but a lower bound for
   * damperClosed. Undefined without a proof.
   */
  proven: number | undefined;
  /** Whether `proven` is within LIMIT_TOLERANCE of `worst`. */
  complete: boolean;
  /** The housing direction that minimises the largest tilt; undefined for a damper and if none was found. */
  betterHousing: BetterHousing | undefined;
}

export interface LimitPose {
  travelMm: number;
  steer: number;
  roadWheelAngleDeg: number;
  used: number;
}

/** A direction of a joint's housing and the tilt that it leads to. */
export interface BetterHousing {
  /** Value for `housingDirection`: vehicle axes of the left corner at ride height. */
  direction: Vec3;
  /** Upper bound on the joint's tilt with this direction, degrees. */
  mostTiltDeg: number;
}

/** Largest difference between the worst pose found and the proven bound, degrees or mm. */
export const LIMIT_TOLERANCE = 0.01;
