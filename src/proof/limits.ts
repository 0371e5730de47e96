/**
 * Limits over all travel and steer: the tilt of every joint, the length of every damper, angles and plunge of a drive shaft
 * and the length of a brake hose, compared with what each allows. Computed from the mechanism alone, at the steps of a sweep
 * and, by proof, between them.
 */
import type { Corner, Entry } from '../design/schema.ts';
import { smallestCap } from '../math/smallestCap.ts';
import { scale } from '../math/taylorModel.ts';
import { distance, normalize, sub, type Vec3 } from '../math/vec.ts';
import { alignmentAt } from '../mechanism/alignment.ts';
import type { CarrierEnclosures } from '../mechanism/carriers.ts';
import { damperLengthMm, damperLengthSqOver } from '../mechanism/damperLength.ts';
import {
  type EndAxis,
  endAngleDeg,
  endAngleSineSqOver,
  endDistanceMm,
  endDistanceSqOver,
} from '../mechanism/fixedEnds.ts';
import {
  boltInHousing,
  type JointAxes,
  tiltDeg,
  tiltOfSineSqDeg,
  tiltSineSqOver,
} from '../mechanism/jointTilt.ts';
import type { Mechanism } from '../mechanism/mechanism.ts';
import type { Carriers, PoseResult } from '../mechanism/pose.ts';
import { solvePose } from '../mechanism/solvePose.ts';
import { housingAxis, jointAxes, memberEnd } from '../solids/jointPlace.ts';
import {
  type Allowed,
  allowedClosed,
  allowedDistance,
  allowedOpen,
  allowedPlunge,
  allowedShaftAngle,
  allowedTilt,
} from '../sweep/allowedLimits.ts';
import {
  type BetterHousing,
  isAngleLimit,
  LIMIT_TOLERANCE,
  type LimitKind,
  type MeasuredLimit,
} from '../sweep/limit.ts';
import { POSE_STATES } from '../sweep/result.ts';
import type { PoseCell } from './proveCells.ts';
import { divideAtLockOuts } from './proveLockedOut.ts';
import { type ProvenMaximum, proveMaximum, type Quantity } from './proveMaximum.ts';

const NO_TYRE = { radiusMm: 0, planeMm: 0 };

/** Decimals of a direction that the user can enter: 0.0001 turns it by less than 0.01 degrees. */
const DIRECTION_DECIMALS = 4;

/** The limits of a corner. */
export interface CornerLimits {
  limits: MeasuredLimit[];
  /** Whether the suspension is not shown to reach every pose. */
  locksOut: boolean;
}

/** The limits of a corner; see `measureLimits`. */
export const limitsOf = (...corner: Parameters<typeof measureLimits>): MeasuredLimit[] =>
  measureLimits(...corner).limits;

/**
 * Measures every limit of a corner at the steps of a sweep: joints first, in the order of its parts, then dampers, drive
 * shaft and brake hose.
 * With more than one travel step, also proves the limits between the steps.
 */
export function measureLimits(
  corner: Corner,
  mechanism: Mechanism,
  travelMm: Float64Array,
  steer: Float64Array,
): CornerLimits {
  const limits = new LimitMeasure(corner, mechanism, travelMm, steer);
  const measureEach = <K extends 'joint' | 'damper'>(
    kind: K,
    measure: (entry: Entry<K>, partIndex: number) => MeasuredLimit[],
  ) =>
    corner.parts.flatMap((entry, partIndex) =>
      entry.kind === kind ? measure(entry as Entry<K>, partIndex) : [],
    );
  return {
    limits: [
      ...measureEach('joint', (entry, partIndex) => [limits.ofJoint(entry, partIndex)]),
      ...measureEach('damper', (entry, partIndex) => limits.ofDamper(entry, partIndex)),
      ...limits.ofDriveShaft(),
      ...limits.ofBrakeHose(),
    ],
    locksOut: limits.locksOut,
  };
}

/** A quantity of which larger values are worse, at a pose and over a cell. */
interface Measured {
  at(carriers: Carriers): number;
  over(carriers: CarrierEnclosures): ReturnType<Quantity['over']>;
  value: Quantity['value'];
}

class LimitMeasure {
  private readonly corner: Corner;
  private readonly mechanism: Mechanism;
  private readonly travelMm: Float64Array;
  private readonly steer: Float64Array;
  private readonly poses: readonly PoseResult[];
  /** Undefined for a single travel step, which has no poses between steps. */
  private readonly cells: readonly PoseCell[] | undefined;
  /** Whether some pose is not shown to be reached; the cells then do not cover all poses. */
  readonly locksOut: boolean;

  constructor(corner: Corner, mechanism: Mechanism, travelMm: Float64Array, steer: Float64Array) {
    this.corner = corner;
    this.mechanism = mechanism;
    this.travelMm = travelMm;
    this.steer = steer;
    this.poses = [...travelMm].flatMap((travel) =>
      Array.from(steer, (lock) => solvePose(mechanism, travel, lock)),
    );
    const poseState = Uint8Array.from(this.poses, ({ kind }) => POSE_STATES.indexOf(kind));
    const cut =
      travelMm.length > 1
        ? divideAtLockOuts({ mechanism, travelMm, steer }, { travelMm, steer, poseState })
        : undefined;
    this.cells = cut?.cells;
    this.locksOut = this.poses.some(({ kind }) => kind !== 'solved') || (cut?.lockedOut.length ?? 0) > 0;
  }

  ofJoint(entry: Entry<'joint'>, partIndex: number): MeasuredLimit {
    const axes = jointAxes(this.corner, entry);
    const measured = tiltOf(axes);
    return {
      ...this.limit('jointTilt', entry, partIndex, allowedTilt(entry), measured, 1),
      betterHousing: this.betterHousing(entry, axes),
    };
  }

  ofDamper(entry: Entry<'damper'>, partIndex: number): MeasuredLimit[] {
    const { damper: mounts } = this.corner.suspension;
    if (mounts === undefined) return [];
    const length = (sign: 1 | -1): Measured => ({
      at: (carriers) => sign * damperLengthMm(carriers, mounts),
      over: (carriers) => scale(damperLengthSqOver(carriers, mounts), sign),
      value: (signedSq) => sign * Math.sqrt(Math.max(0, sign * signedSq)),
    });
    return [
      this.limit('damperClosed', entry, partIndex, allowedClosed(entry), length(-1), -1),
      this.limit('damperOpen', entry, partIndex, allowedOpen(entry), length(1), 1),
    ];
  }

  ofDriveShaft(): MeasuredLimit[] {
    const { driveShaft } = this.corner;
    if (driveShaft === undefined) return [];
    const ends = { chassis: driveShaft.inner, upright: driveShaft.outer };
    const owner = { id: 'driveShaft', label: 'Drive shaft' };
    const rideMm = distance(ends.chassis, ends.upright);
    const angle = (axis: EndAxis): Measured => ({
      at: (carriers) => endAngleDeg(carriers, ends, axis),
      over: (carriers) => endAngleSineSqOver(carriers, ends, axis),
      value: tiltOfSineSqDeg,
    });
    const plunge = (sign: 1 | -1): Measured => ({
      at: (carriers) => sign * (endDistanceMm(carriers, ends) - rideMm),
      over: (carriers) => scale(endDistanceSqOver(carriers, ends), sign),
      value: (signedSq) => sign * (Math.sqrt(Math.max(0, sign * signedSq)) - rideMm),
    });
    const inner = angle({ carrier: 'chassis', direction: normalize(driveShaft.innerDirection) });
    const outer = angle({ carrier: 'upright', direction: this.mechanism.spinAxis });
    const limit = (kind: LimitKind, allowed: Allowed, measured: Measured) =>
      this.limit(kind, owner, undefined, allowed, measured, 1);
    return [
      limit('shaftInner', allowedShaftAngle(driveShaft, 'inner'), inner),
      limit('shaftOuter', allowedShaftAngle(driveShaft, 'outer'), outer),
      limit('shaftIn', allowedPlunge(driveShaft, 'plungeIn'), plunge(-1)),
      limit('shaftOut', allowedPlunge(driveShaft, 'plungeOut'), plunge(1)),
    ];
  }

  ofBrakeHose(): MeasuredLimit[] {
    const { brakeHose } = this.corner;
    if (brakeHose === undefined) return [];
    const ends = { chassis: brakeHose.chassisEnd, upright: brakeHose.uprightEnd };
    const straight: Measured = {
      at: (carriers) => endDistanceMm(carriers, ends),
      over: (carriers) => endDistanceSqOver(carriers, ends),
      value: (sq) => Math.sqrt(Math.max(0, sq)),
    };
    const owner = { id: 'brakeHose', label: 'Brake hose' };
    return [this.limit('hoseLength', owner, undefined, allowedDistance(brakeHose), straight, 1)];
  }

  /** `sign`: -1 if smaller values are worse; `measured` is then the negated value. */
  private limit(
    kind: LimitKind,
    { id, label }: { id: string; label?: string | undefined },
    partIndex: number | undefined,
    allowed: Allowed,
    measured: Measured,
    sign: 1 | -1,
  ): MeasuredLimit {
    const values = this.poses.map((pose) =>
      pose.kind === 'solved' ? measured.at(pose.carriers) : Number.NaN,
    );
    const maximum = this.maximum(measured, values);
    return {
      kind,
      partIndex,
      label: label ?? id,
      unit: isAngleLimit(kind) ? 'deg' : 'mm',
      ...allowed,
      usedAtSteps: Float64Array.from(values, (value) => sign * value),
      worst: maximum && this.poseAt(maximum.found, sign),
      proven: maximum !== undefined && Number.isFinite(maximum.bound) ? sign * maximum.bound : undefined,
      complete: maximum?.complete === true,
      betterHousing: undefined,
    };
  }

  /** The maximum of a quantity over all poses; undefined if no pose is reached. */
  private maximum(measured: Measured, values: readonly number[]): ProvenMaximum | undefined {
    let step = -1;
    for (const [s, value] of values.entries())
      if (!Number.isNaN(value) && !(step >= 0 && value <= values[step])) step = s;
    if (step < 0) return undefined;
    const found = {
      travelMm: this.travelMm[Math.floor(step / this.steer.length)],
      steer: this.steer[step % this.steer.length],
      value: values[step],
    };
    if (this.cells === undefined) return { found, bound: found.value, complete: true };
    const at = (travelMm: number, steer: number) => {
      const pose = solvePose(this.mechanism, travelMm, steer);
      return pose.kind === 'solved' ? measured.at(pose.carriers) : undefined;
    };
    return proveMaximum({ ...measured, at }, this.cells, found, LIMIT_TOLERANCE);
  }

  private poseAt({ travelMm, steer, value }: ProvenMaximum['found'], sign: 1 | -1): MeasuredLimit['worst'] {
    const pose = solvePose(this.mechanism, travelMm, steer);
    // The tyre affects only the contact centre, so none is needed.
    const roadWheelAngleDeg =
      pose.kind === 'solved' ? alignmentAt(this.mechanism, pose, NO_TYRE).roadWheelAngleDeg : Number.NaN;
    return { travelMm, steer, roadWheelAngleDeg, used: sign * value };
  }

  /**
   * The housing direction that minimises the largest tilt: the middle of the smallest cap that contains the bolt's
   * directions, relative to the member that holds the housing. A rod end's direction is perpendicular to its shank.
   * Undefined if the suspension locks out, because the tilt there is not proved.
   */
  private betterHousing(entry: Entry<'joint'>, axes: JointAxes): BetterHousing | undefined {
    if (this.cells === undefined || this.locksOut) return undefined;
    const { hardpoints } = this.corner.suspension;
    const bolts = this.poses.flatMap((pose) =>
      pose.kind === 'solved' ? [boltInHousing(pose.carriers, axes)] : [],
    );
    const shank =
      entry.form === 'rodEnd'
        ? normalize(sub(memberEnd(this.corner, entry.at), hardpoints[entry.at]))
        : undefined;
    const centre = bolts.length === 0 ? undefined : smallestCap(bolts, shank);
    if (centre === undefined) return undefined;
    // The proof uses the rounded direction, because that is what the user enters.
    const direction = centre.map((c) => Number(c.toFixed(DIRECTION_DECIMALS))) as unknown as Vec3;
    const typed = housingAxis(this.corner, { ...entry, housingDirection: [...direction] });
    const measured = tiltOf({ ...axes, housing: { ...axes.housing, direction: typed } });
    const values = this.poses.map((pose) =>
      pose.kind === 'solved' ? measured.at(pose.carriers) : Number.NaN,
    );
    const maximum = this.maximum(measured, values);
    return maximum === undefined || !Number.isFinite(maximum.bound)
      ? undefined
      : { direction, mostTiltDeg: maximum.bound };
  }
}

const tiltOf = (axes: JointAxes): Measured => ({
  at: (carriers) => tiltDeg(carriers, axes),
  over: (carriers) => tiltSineSqOver(carriers, axes),
  value: tiltOfSineSqDeg,
});
