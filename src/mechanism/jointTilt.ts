import type { Carrier } from '../layouts/suspension.ts';
import { applyDirection, invert } from '../math/rigid.ts';
import type { TaylorModel } from '../math/taylorModel.ts';
import { crossVec, dotVec, turned } from '../math/taylorVec.ts';
import { cross, dot, length, type Vec3 } from '../math/vec.ts';
import type { CarrierEnclosures } from './carriers.ts';
import type { Carriers } from './pose.ts';

/** An axis fixed to a member: unit vector, vehicle axes at ride height. */
export interface MemberAxis {
  carrier: Carrier;
  direction: Vec3;
}

/** The two axes of a spherical joint: the bolt through the ball, and the housing around the ball. */
export interface JointAxes {
  bolt: MemberAxis;
  housing: MemberAxis;
}

const DEGREES = 180 / Math.PI;

/** Tilt of a joint at a pose: the angle between the lines of its two axes, 0 to 90 degrees. */
export function tiltDeg(carriers: Carriers, { bolt, housing }: JointAxes): number {
  const a = applyDirection(carriers[bolt.carrier], bolt.direction);
  const b = applyDirection(carriers[housing.carrier], housing.direction);
  return Math.atan2(length(cross(a, b)), Math.abs(dot(a, b))) * DEGREES;
}

/** Squared sine of a joint's tilt over a cell. */
export function tiltSineSqOver(carriers: CarrierEnclosures, { bolt, housing }: JointAxes): TaylorModel {
  const a = turned(carriers[bolt.carrier].rows, bolt.direction);
  const b = turned(carriers[housing.carrier].rows, housing.direction);
  const square = crossVec(a, b);
  return dotVec(square, square);
}

/** The tilt for a squared sine, degrees; 90 for a squared sine of 1 or more. */
export const tiltOfSineSqDeg = (sineSq: number): number =>
  sineSq < 1 ? Math.atan2(Math.sqrt(Math.max(0, sineSq)), Math.sqrt(1 - sineSq)) * DEGREES : 90;

/** Direction of the bolt in the frame of the housing's member at a pose: unit vector, vehicle axes at ride height. */
export const boltInHousing = (carriers: Carriers, { bolt, housing }: JointAxes): Vec3 =>
  applyDirection(invert(carriers[housing.carrier]), applyDirection(carriers[bolt.carrier], bolt.direction));

/**
 * Tilt at which a round shaft (bolt or spacer) meets the edge of the housing, degrees: acos(S / E) - asin(T / E) for
 * shaft diameter S, ball diameter E and housing width T. Makers' catalogue formula, from memory. Negative if the
 * shaft does not pass through the housing even when straight.
 */
export const tiltAtShaftDeg = (ballMm: number, housingWidthMm: number, shaftMm: number): number =>
  (Math.acos(shaftMm / ballMm) - Math.asin(housingWidthMm / ballMm)) * DEGREES;

/**
 * Tilt at which the edge of the ball's face meets the edge of the housing, degrees: asin(W / E) - asin(T / E) for
 * ball width W. This is the misalignment in makers' tables of spherical bearings and rod ends.
 */
export const tiltAtBallFaceDeg = (ballMm: number, housingWidthMm: number, ballWidthMm: number): number =>
  (Math.asin(ballWidthMm / ballMm) - Math.asin(housingWidthMm / ballMm)) * DEGREES;
