/** Dimensions to start from that let joints tilt and dampers move as far as a suspension takes them. */
import { DesignProblems } from '../../design/problem.ts';
import type { Suspension } from '../../design/schema.ts';
import { tiltDeg } from '../../mechanism/jointTilt.ts';
import { sampledPoses } from '../../mechanism/sampledPoses.ts';
import { damperRangeMm } from '../../solids/damperRange.ts';
import { type JointPose, jointAxes } from '../../solids/jointPlace.ts';
import { degToRad } from '../../units/angle.ts';

// Every figure here is common practice, no source.

/** Least tilt that a joint allows, whatever it uses. */
const LEAST_TILT_DEG = 12;
/** Tilt left over beyond the largest on the grid of poses. */
const SPARE_TILT_DEG = 2;
/** No ball is made for more tilt than this: such a joint binds, and is reported. */
const MOST_TILT_DEG = 60;
/** Middle of the angle between the edge of the housing and the bolt, from the plane of the ball. */
const MIDDLE_DEG = 50;
/** Housing about its ball, on the diameter. */
export const HOUSING_WALLS_MM = 14;
/** Left of a damper's stroke at each end. */
const DAMPER_ROOM_MM = 10;

/** Result of `measure`; undefined where the suspension cannot be posed. */
function whereItMoves<T>(measure: () => T): T | undefined {
  try {
    return measure();
  } catch (error) {
    if (error instanceof DesignProblems) return undefined;
    throw error;
  }
}

/** Tilt that a joint should allow, degrees: the largest over travel and lock and a little more, the usual one at least. */
export function neededTiltDeg(suspension: Suspension, joint: JointPose): number {
  const axes = jointAxes({ suspension }, joint);
  const tilts = whereItMoves(() => sampledPoses(suspension).map((carriers) => tiltDeg(carriers, axes))) ?? [];
  return Math.min(MOST_TILT_DEG, Math.max(LEAST_TILT_DEG, ...tilts.map((deg) => deg + SPARE_TILT_DEG)));
}

/**
 * Ball and housing width that allow a tilt with a bolt, mm, in whole steps. For a tilt t the ball is E = S / cos(50° + t/2)
 * and the width T = E sin(50° − t/2), so that acos(S / E) − asin(T / E) = t: a larger ball and a narrower housing each give
 * half of it.
 */
export function ballForTilt(
  tiltDegrees: number,
  boltMm: number,
  stepMm = 1,
): { ballDiameter: number; housingWidth: number } {
  const ball = boltMm / Math.cos(degToRad(MIDDLE_DEG + tiltDegrees / 2));
  const ballDiameter = Math.ceil(ball / stepMm) * stepMm;
  const width = ballDiameter * Math.sin(degToRad(MIDDLE_DEG - tiltDegrees / 2));
  return { ballDiameter, housingWidth: Math.floor(width / stepMm) * stepMm };
}

/**
 * Lengths of a damper closed and open, mm, between which it never comes to its ends over travel and lock; undefined where the
 * suspension has none or cannot be posed.
 */
export function damperLengths(suspension: Suspension): { closedMm: number; openMm: number } | undefined {
  if (suspension.damper === undefined) return undefined;
  const range = whereItMoves(() => damperRangeMm(suspension));
  return range && { closedMm: range.shortest - DAMPER_ROOM_MM, openMm: range.longest + DAMPER_ROOM_MM };
}
