import type { Rigid } from '../math/rigid.ts';
import type { Vec3 } from '../math/vec.ts';
import type { Corner } from './schema.ts';

/**
 * A corner is stored and computed as a left one; a right one is shown as its mirror image in the plane Y = 0. The functions
 * here convert computed values to shown values; each is its own inverse.
 */
export type Side = Corner['side'];

/** Steer as shown: positive turns this wheel's front edge toward the vehicle's left (ISO 8855). */
export const shownSteer = (side: Side, steer: number): number =>
  side === 'right' && steer !== 0 ? -steer : steer;

export const shownPoint = (side: Side, p: Vec3): Vec3 => (side === 'right' ? [p[0], -p[1], p[2]] : p);

/** The transform of mirrored points that corresponds to `t`. */
export function shownRigid(side: Side, t: Rigid): Rigid {
  if (side === 'left') return t;
  return Float64Array.of(t[0], -t[1], t[2], t[3], -t[4], t[5], -t[6], -t[7], t[8], -t[9], t[10], t[11]);
}
