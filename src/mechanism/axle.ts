/** Figures of a whole axle, whose other corner is the mirror image of this one. */
import { alignmentAt, type TyreCircle, wheelPlace } from './alignment.ts';
import { inputAt } from './assemble.ts';
import type { SolvedPose } from './pose.ts';
import type { Mechanism } from './prepared.ts';
import { solvePose } from './solvePose.ts';

const RADIANS = Math.PI / 180;

/** Steer angles of both wheels of an axle at one steering input. */
export interface SteerAngles {
  /** Of the wheel inside the turn, and of the one outside, from straight ahead at the same travel; degrees, above 0. */
  innerDeg: number;
  outerDeg: number;
  /** Distance between the steering axes at the ground, straight ahead at the same travel, mm. */
  pivotDistanceMm: number;
}

/**
 * Steer of this corner at which its steering input is the opposite of that at `steer`. The other corner of the axle is the
 * mirror image of this one there. Undefined if the steering does not move to that side.
 */
function oppositeSteer(mechanism: Mechanism, steer: number): number | undefined {
  const here = Math.abs(inputAt(mechanism, steer));
  const lock = Math.abs(inputAt(mechanism, -Math.sign(steer)));
  return lock === 0 ? undefined : (-Math.sign(steer) * here) / lock;
}

/**
 * Steer angles of this wheel at a pose and of the other wheel at the same travel and the same motion of the steering.
 * Static toe and bump steer are left out. Undefined straight ahead, if one of the poses is not reached, or if the wheels
 * do not turn the same way.
 */
export function steerAngles(
  mechanism: Mechanism,
  pose: SolvedPose,
  tyre: TyreCircle,
): SteerAngles | undefined {
  const { travelMm, steer } = pose;
  const otherSteer = steer === 0 ? undefined : oppositeSteer(mechanism, steer);
  if (otherSteer === undefined) return undefined;
  const straight = solvePose(mechanism, travelMm, 0);
  const other = solvePose(mechanism, travelMm, otherSteer);
  if (straight.kind !== 'solved' || other.kind !== 'solved') return undefined;
  const headingOf = (at: SolvedPose) => alignmentAt(mechanism, at, tyre).roadWheelAngleDeg;
  const turned = (at: SolvedPose) => Math.sign(at.steer) * (headingOf(at) - headingOf(straight));
  // The wheel whose front edge is outboard is inside the turn.
  const [inner, outer] = steer > 0 ? [pose, other] : [other, pose];
  const [innerDeg, outerDeg] = [turned(inner), turned(outer)];
  if (!(innerDeg > 0 && outerDeg > 0)) return undefined;
  const pivotDistanceMm = 2 * wheelPlace(mechanism, straight, tyre).kingpinAtGround[1];
  return { innerDeg, outerDeg, pivotDistanceMm };
}

/**
 * Outer steer angle at which both wheels roll about one point on the line of the rear axle, degrees:
 * cot(outer) - cot(inner) = distance between the steering axes / wheelbase.
 */
export function trueOuterDeg({ innerDeg, pivotDistanceMm }: SteerAngles, wheelbaseMm: number): number {
  const cotangent = 1 / Math.tan(innerDeg * RADIANS) + pivotDistanceMm / wheelbaseMm;
  return Math.atan2(1, cotangent) / RADIANS;
}

/**
 * Percent Ackermann: 100 (inner - outer) / (inner - true outer), with `trueOuterDeg` of the inner angle. 0: both wheels turn
 * alike; 100: both roll about one point. Other definitions are in use, and give other figures.
 */
export const ackermannPercent = (angles: SteerAngles, wheelbaseMm: number): number =>
  (100 * (angles.innerDeg - angles.outerDeg)) / (angles.innerDeg - trueOuterDeg(angles, wheelbaseMm));

/**
 * Diameter of the circle on which the contact centre of the wheel outside the turn rolls without side slip about a point on
 * the line of the rear axle, mm, with this wheel as the outer one: its front edge must be inboard. The front axle line is
 * X = 0. Undefined if the wheel does not point into the turn.
 */
export function turningCircleMm(
  mechanism: Mechanism,
  pose: SolvedPose,
  tyre: TyreCircle,
  wheelbaseMm: number,
): number | undefined {
  const { toeDeg } = alignmentAt(mechanism, pose, tyre);
  if (!(toeDeg > 0)) return undefined;
  const { contact } = wheelPlace(mechanism, pose, tyre);
  return (2 * (wheelbaseMm + contact[0])) / Math.sin(toeDeg * RADIANS);
}

/**
 * Anti-dive, percent: 100 × share of the front brakes × forward motion of the contact centre per its rise × wheelbase /
 * height of the centre of gravity. For brakes on the upright. At 100, braking does not compress the front springs.
 */
export const antiDivePercent = (
  contactForwardPerRise: number,
  {
    frontBrakeShare,
    wheelbaseMm,
    centreOfGravityMm,
  }: { frontBrakeShare: number; wheelbaseMm: number; centreOfGravityMm: number },
): number => (100 * frontBrakeShare * contactForwardPerRise * wheelbaseMm) / centreOfGravityMm;
