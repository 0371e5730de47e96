import { layoutOf } from '../layouts/layoutOf.ts';
import { cross, sub, type Vec3 } from '../math/vec.ts';
import { type TyreCircle, wheelPlace } from './alignment.ts';
import { assemble, inputAt } from './assemble.ts';
import { carriersOf } from './carriers.ts';
import { damperLengthMm } from './damperLength.ts';
import type { SolvedPose } from './pose.ts';
import type { Mechanism } from './prepared.ts';

/** A point of a plane through the contact centre. */
export interface ViewPoint {
  /** Vehicle axes: Y in front view, X in side view, mm. */
  acrossMm: number;
  /** Height above the ground under this wheel, mm. */
  heightMm: number;
}

/**
 * Rates of the left corner at a pose, with the steering input held: what changes as the wheel centre rises. Signs as in
 * `Alignment` (ISO 8855). The ground is the horizontal plane through the contact centre at the pose.
 */
export interface AlignmentRates {
  /** Change of camber, and of toe (bump steer), per metre of rise. */
  camberDegPerM: number;
  toeDegPerM: number;
  /**
   * Instant centre in front view: the point of the transverse plane through the contact centre at which the upright has no
   * velocity in that plane. Undefined if it is further than 10 km: the upright then moves without turning.
   */
  frontViewCentre: ViewPoint | undefined;
  /** Instant centre in side view: as `frontViewCentre`, in the plane along the vehicle. */
  sideViewCentre: ViewPoint | undefined;
  /**
   * Height above the ground at which the line from the contact centre through the front-view instant centre crosses the
   * vehicle's centre plane. It is the roll centre of an axle whose other wheel is at the mirrored pose.
   */
  rollCentreHeightMm: number;
  /**
   * Forward motion of the contact centre, as a point of the upright, per unit of its rise: the tangent of the angle of the
   * line from the contact centre to the side-view instant centre.
   */
  contactForwardPerRise: number;
  /** Shortening of the damper per unit of rise of the wheel centre; undefined without a damper. */
  motionRatio: number | undefined;
}

const DEGREES = 180 / Math.PI;
const MM_PER_M = 1000;
/**
 * Step of the differences over the arm's angle, rad. Their error is its fourth power times a fifth derivative, plus the
 * rounding of Float64 divided by it: about 1e-11 of a coordinate each.
 */
const STEP_RAD = 1e-3;
/** A slower turn than this, rad per mm of rise, puts the instant centre further than 10 km. */
const LEAST_TURN_PER_MM = 1e-7;

/** Derivative from values one and two steps before and after. */
const slope = ([before2, before, after, after2]: readonly number[]): number =>
  (before2 - 8 * before + 8 * after - after2) / (12 * STEP_RAD);

/**
 * The rates at a pose, from the velocity of the upright: differences of fourth order over the arm's angle. Undefined if the
 * mechanism does not assemble 0.002 rad to either side, or the wheel centre does not rise there.
 */
export function alignmentRates(
  mechanism: Mechanism,
  pose: SolvedPose,
  tyre: TyreCircle,
): AlignmentRates | undefined {
  const { damper, linkage } = mechanism;
  const armRad = layoutOf(mechanism).kinematics.armRad(linkage, pose.carriers);
  const input = inputAt(mechanism, pose.steer);
  const beside = [-2, -1, 1, 2].flatMap((steps) => {
    const assembly = assemble(mechanism, armRad + steps * STEP_RAD, input);
    return assembly === undefined
      ? []
      : [{ riseMm: assembly.riseMm, carriers: carriersOf(mechanism, assembly) }];
  });
  const risePerRad = beside.length < 4 ? 0 : slope(beside.map(({ riseMm }) => riseMm));
  if (risePerRad === 0) return undefined;

  const { upright } = pose.carriers;
  /** Entries of the upright's transform per mm of rise. */
  const rate = Array.from(upright, (_, i) => slope(beside.map((at) => at.carriers.upright[i])) / risePerRad);
  /** An entry of the rate of the rotation times its transpose: the velocity field of the turn. */
  const turn = (row: number, column: number): number =>
    [0, 1, 2].reduce((sum, k) => sum + rate[4 * row + k] * upright[4 * column + k], 0);
  const omega: Vec3 = [turn(2, 1), turn(0, 2), turn(1, 0)];
  const origin: Vec3 = [upright[3], upright[7], upright[11]];
  const { spin, contact } = wheelPlace(mechanism, pose, tyre);
  const fromOrigin = cross(omega, sub(contact, origin));
  const velocity: Vec3 = [fromOrigin[0] + rate[3], fromOrigin[1] + rate[7], fromOrigin[2] + rate[11]];
  const spinRate = cross(omega, spin);
  const flat = spin[0] ** 2 + spin[1] ** 2;

  return {
    camberDegPerM: (-spinRate[2] / Math.sqrt(flat)) * DEGREES * MM_PER_M,
    toeDegPerM: ((spin[1] * spinRate[0] - spin[0] * spinRate[1]) / flat) * DEGREES * MM_PER_M,
    frontViewCentre: viewCentre(contact[1], -omega[0], velocity[1], velocity[2]),
    sideViewCentre: viewCentre(contact[0], omega[1], velocity[0], velocity[2]),
    rollCentreHeightMm: (contact[1] * velocity[1]) / velocity[2],
    contactForwardPerRise: velocity[0] / velocity[2],
    motionRatio:
      damper && -slope(beside.map(({ carriers }) => damperLengthMm(carriers, damper))) / risePerRad,
  };
}

/** The point of a plane without velocity. `turn`: of the axis across toward the vertical, rad per mm of rise. */
function viewCentre(
  contactMm: number,
  turn: number,
  acrossRate: number,
  upRate: number,
): ViewPoint | undefined {
  if (Math.abs(turn) < LEAST_TURN_PER_MM) return undefined;
  return { acrossMm: contactMm + upRate / turn, heightMm: -acrossRate / turn };
}
