/**
 * What binds over all travel and steer: tilt of every joint against what the joint allows, length of every damper against
 * its own. Computed from the mechanism alone, at the steps of a sweep and, by proof, between them.
 */
import type { Corner, Entry } from '../design/schema.ts';
import { smallestCap } from '../math/smallestCap.ts';
import { scale } from '../math/taylorModel.ts';
import { normalize, sub, type Vec3 } from '../math/vec.ts';
import { alignmentAt } from '../mechanism/alignment.ts';
import { damperLengthMm, damperLengthSqOver } from '../mechanism/damperLength.ts';
import type { CarrierEnclosures } from '../mechanism/enclosureCarriers.ts';
import {
  boltInHousing,
  type JointAxes,
  tiltDeg,
  tiltOfSineSqDeg,
  tiltSineSqOver,
} from '../mechanism/jointTilt.ts';
import type { Mechanism } from '../mechanism/linkage.ts';
import type { Carriers, PoseResult } from '../mechanism/pose.ts';
import { solvePose } from '../mechanism/solvePose.ts';
import { housingAxis, jointAxes, memberEnd } from '../solids/jointPlace.ts';
import { type Allowed, allowedClosed, allowedOpen, allowedTilt } from './allowedLimits.ts';
import { type BetterHousing, LIMIT_TOLERANCE, type LimitKind, type MeasuredLimit } from './limit.ts';
import type { PoseCell } from './proveCells.ts';
import { cutOut } from './proveLockedOut.ts';
import { type ProvenMost, proveMost, type Quantity } from './proveMost.ts';
import { POSE_STATES } from './result.ts';

const NO_TYRE = { radiusMm: 0, planeMm: 0 };

/** Decimals of a direction to enter: 0.0001 turns it by less than 0.01 degrees. */
const DIRECTION_DECIMALS = 4;

/** The limits of a corner, and whether they hold for its whole range of travel and steer. */
export interface CornerLimits {
  limits: MeasuredLimit[];
  /** Whether the suspension is not shown to reach every pose. */
  locksOut: boolean;
}

/** Every limit of a corner, as `measureLimits` has them. */
export const limitsOf = (...corner: Parameters<typeof measureLimits>): MeasuredLimit[] =>
  measureLimits(...corner).limits;

/**
 * Every limit of a corner, joints first, in the order of its parts, at the steps of a sweep. Between the steps as well
 * where travel has more than one: a single pose has nothing between.
 */
export function measureLimits(
  corner: Corner,
  mechanism: Mechanism,
  travelMm: Float64Array,
  steer: Float64Array,
): CornerLimits {
  const limits = new LimitMeasure(corner, mechanism, travelMm, steer);
  const of = <K extends 'joint' | 'damper'>(
    kind: K,
    measure: (entry: Entry<K>, partIndex: number) => MeasuredLimit[],
  ) =>
    corner.parts.flatMap((entry, partIndex) =>
      entry.kind === kind ? measure(entry as Entry<K>, partIndex) : [],
    );
  return {
    limits: [
      ...of('joint', (entry, partIndex) => [limits.ofJoint(entry, partIndex)]),
      ...of('damper', (entry, partIndex) => limits.ofDamper(entry, partIndex)),
    ],
    locksOut: limits.locksOut,
  };
}

/** A quantity of which more is worse, at a pose and over a cell. */
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
  /** Undefined where there is nothing between the steps. */
  private readonly cells: readonly PoseCell[] | undefined;
  /** Whether the suspension is not shown to reach every pose: the cells do not hold them all. */
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
        ? cutOut({ mechanism, travelMm, steer }, { travelMm, steer, poseState })
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

  /** `sign`: -1 where less is worse, and `measured` has the opposite of what is used. */
  private limit(
    kind: LimitKind,
    { id, label }: { id: string; label?: string | undefined },
    partIndex: number,
    allowed: Allowed,
    measured: Measured,
    sign: 1 | -1,
  ): MeasuredLimit {
    const values = this.poses.map((pose) =>
      pose.kind === 'solved' ? measured.at(pose.carriers) : Number.NaN,
    );
    const most = this.most(measured, values);
    return {
      kind,
      partIndex,
      label: label ?? id,
      unit: kind === 'jointTilt' ? 'deg' : 'mm',
      ...allowed,
      usedAtSteps: Float64Array.from(values, (value) => sign * value),
      worst: most && this.poseAt(most.found, sign),
      proven: most !== undefined && Number.isFinite(most.most) ? sign * most.most : undefined,
      complete: most?.complete === true,
      betterHousing: undefined,
    };
  }

  /** The most of a quantity over all poses; undefined where none is reached. */
  private most(measured: Measured, values: readonly number[]): ProvenMost | undefined {
    let step = -1;
    for (const [s, value] of values.entries())
      if (!Number.isNaN(value) && !(step >= 0 && value <= values[step])) step = s;
    if (step < 0) return undefined;
    const found = {
      travelMm: this.travelMm[Math.floor(step / this.steer.length)],
      steer: this.steer[step % this.steer.length],
      value: values[step],
    };
    if (this.cells === undefined) return { found, most: found.value, complete: true };
    const at = (travelMm: number, steer: number) => {
      const pose = solvePose(this.mechanism, travelMm, steer);
      return pose.kind === 'solved' ? measured.at(pose.carriers) : undefined;
    };
    return proveMost({ ...measured, at }, this.cells, found, LIMIT_TOLERANCE);
  }

  private poseAt({ travelMm, steer, value }: ProvenMost['found'], sign: 1 | -1): MeasuredLimit['worst'] {
    const pose = solvePose(this.mechanism, travelMm, steer);
    // The tyre changes the contact centre only.
    const roadWheelAngleDeg =
      pose.kind === 'solved' ? alignmentAt(this.mechanism, pose, NO_TYRE).roadWheelAngleDeg : Number.NaN;
    return { travelMm, steer, roadWheelAngleDeg, used: sign * value };
  }

  /**
   * The direction of a joint's housing whose largest tilt is smallest: the middle of the smallest cap that the bolt's
   * directions, as seen from the housing's member, lie in. A rod end's is square to its shank. None where the suspension
   * locks out: the tilt in those parts is not proved.
   */
  private betterHousing(entry: Entry<'joint'>, axes: JointAxes): BetterHousing | undefined {
    if (this.cells === undefined || this.locksOut) return undefined;
    const { hardpoints } = this.corner.suspension;
    const bolts = this.poses.flatMap((pose) =>
      pose.kind === 'solved' ? [boltInHousing(pose.carriers, axes)] : [],
    );
    const shank =
      entry.form === 'rodEnd'
        ? normalize(sub(memberEnd(hardpoints, entry.at), hardpoints[entry.at]))
        : undefined;
    const centre = bolts.length === 0 ? undefined : smallestCap(bolts, shank);
    if (centre === undefined) return undefined;
    // What is proved is of the direction as a person types it, not of the one before rounding.
    const direction = centre.map((c) => Number(c.toFixed(DIRECTION_DECIMALS))) as unknown as Vec3;
    const typed = housingAxis(this.corner, { ...entry, housingDirection: [...direction] });
    const measured = tiltOf({ ...axes, housing: { ...axes.housing, direction: typed } });
    const values = this.poses.map((pose) =>
      pose.kind === 'solved' ? measured.at(pose.carriers) : Number.NaN,
    );
    const most = this.most(measured, values);
    return most === undefined || !Number.isFinite(most.most)
      ? undefined
      : { direction, mostTiltDeg: most.most };
  }
}

const tiltOf = (axes: JointAxes): Measured => ({
  at: (carriers) => tiltDeg(carriers, axes),
  over: (carriers) => tiltSineSqOver(carriers, axes),
  value: tiltOfSineSqDeg,
});
