import { applyDirection, applyPoint } from '../math/rigid.ts';
import { mul, reciprocal, type TaylorModel } from '../math/taylorModel.ts';
import { constantVec, crossVec, dotVec, movedPoint, subVec, turned } from '../math/taylorVec.ts';
import { cross, distance, dot, length, sub, type Vec3 } from '../math/vec.ts';
import type { CarrierEnclosures } from './carriers.ts';
import type { Carriers } from './pose.ts';

/** A link from a point of the chassis to a point of the upright, both in vehicle axes at ride height, mm. */
export interface FixedEnds {
  chassis: Vec3;
  upright: Vec3;
}

/** Straight distance between the ends at a pose, mm. */
export const endDistanceMm = ({ upright: carrier }: Carriers, { chassis, upright }: FixedEnds): number =>
  distance(chassis, applyPoint(carrier, upright));

/** Squared straight distance between the ends over a cell, mm². */
export function endDistanceSqOver({ upright: carrier }: CarrierEnclosures, ends: FixedEnds): TaylorModel {
  const link = subVec(movedPoint(carrier, ends.upright), constantVec(ends.chassis));
  return dotVec(link, link);
}

/** An axis at one of the ends: unit vector, vehicle axes at ride height. */
export interface EndAxis {
  carrier: 'chassis' | 'upright';
  direction: Vec3;
}

const DEGREES = 180 / Math.PI;

/** Angle between the line through the ends and an axis at a pose, 0 to 90 degrees. */
export function endAngleDeg(carriers: Carriers, ends: FixedEnds, axis: EndAxis): number {
  const link = sub(applyPoint(carriers.upright, ends.upright), ends.chassis);
  const along = applyDirection(carriers[axis.carrier], axis.direction);
  return Math.atan2(length(cross(link, along)), Math.abs(dot(link, along))) * DEGREES;
}

/** Squared sine of that angle over a cell. */
export function endAngleSineSqOver(carriers: CarrierEnclosures, ends: FixedEnds, axis: EndAxis): TaylorModel {
  const link = subVec(movedPoint(carriers.upright, ends.upright), constantVec(ends.chassis));
  const square = crossVec(link, turned(carriers[axis.carrier].rows, axis.direction));
  return mul(dotVec(square, square), reciprocal(dotVec(link, link)));
}
