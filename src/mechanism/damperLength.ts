import type { Suspension } from '../layouts/suspension.ts';
import { applyPoint } from '../math/rigid.ts';
import type { TaylorModel } from '../math/taylorModel.ts';
import { constantVec, dotVec, movedPoint, subVec } from '../math/taylorVec.ts';
import { distance } from '../math/vec.ts';
import type { CarrierEnclosures } from './carriers.ts';
import type { Carriers } from './pose.ts';

type DamperMounts = NonNullable<Suspension['damper']>;

/** Distance between the centres of a damper's mounts at a pose, mm. */
export const damperLengthMm = (carriers: Carriers, { chassisMount, armMount, on }: DamperMounts): number =>
  distance(chassisMount, applyPoint(carriers[on], armMount));

/** Squared distance between the centres of a damper's mounts over a cell, mm². */
export function damperLengthSqOver(
  carriers: CarrierEnclosures,
  { chassisMount, armMount, on }: DamperMounts,
): TaylorModel {
  const between = subVec(movedPoint(carriers[on], armMount), constantVec(chassisMount));
  return dotVec(between, between);
}
