/** Starting dimensions of joints and dampers that allow the whole travel and lock of a suspension. */

import type { Suspension } from '../../design/schema.ts';
import { tiltDeg } from '../../mechanism/jointTilt.ts';
import { sampledPoses } from '../../mechanism/sampledPoses.ts';
import { damperRangeMm } from '../../solids/damperRange.ts';
import { type JointPose, jointAxes } from '../../solids/jointPlace.ts';
import { degToRad } from '../../units/angle.ts';
import { DesignProblems } from '../../units/problem.ts';

// All figures in this file: common practice, no source.

/** Least tilt that a joint allows. */
const MIN_TILT_DEG = 12;
/** Margin on the largest tilt on the grid of poses. */
const SPARE_TILT_DEG = 2;
/** Largest tilt that a ball is sized for; beyond it the joint binds and is reported. */
const MAX_TILT_DEG = 60;
/** Mean of the angles of housing edge and bolt, from the plane of the ball. */
const MIDDLE_DEG = 50;
/** Unused damper stroke at each end. */
const DAMPER_ROOM_MM = 10;

/** Result of `measure`; undefined if the suspension cannot be posed. */
function ifPosable<T>(measure: () => T): T | undefined {
  try {
    return measure();
  } catch (error) {
    if (error instanceof DesignProblems) return undefined;
    throw error;
  }
}

/** Tilt that a joint should allow, degrees: the largest over travel and lock plus a margin, at least the minimum. */
export function neededTiltDeg(suspension: Suspension, joint: JointPose): number {
  const axes = jointAxes({ suspension }, joint);
  const tilts = ifPosable(() => sampledPoses(suspension).map((carriers) => tiltDeg(carriers, axes))) ?? [];
  return Math.min(MAX_TILT_DEG, Math.max(MIN_TILT_DEG, ...tilts.map((deg) => deg + SPARE_TILT_DEG)));
}

/**
 * Ball diameter and housing width that allow a tilt with a bolt, mm, rounded to `stepMm`. For tilt t and bolt diameter S,
 * the ball is E = S / cos(50° + t/2) and the width T = E sin(50° − t/2), so that acos(S / E) − asin(T / E) = t. The larger
 * ball and the narrower housing each give half of the tilt.
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
 * Closed and open length of a damper, mm, such that it does not reach its ends over travel and lock. Undefined if the
 * suspension has no damper or cannot be posed.
 */
export function damperLengths(suspension: Suspension): { closedMm: number; openMm: number } | undefined {
  if (suspension.damper === undefined) return undefined;
  const range = ifPosable(() => damperRangeMm(suspension));
  return range && { closedMm: range.shortest - DAMPER_ROOM_MM, openMm: range.longest + DAMPER_ROOM_MM };
}
