import type { Carrier, Corner } from '../design/schema.ts';
import { layoutOf } from '../layouts/layoutOf.ts';
import { normalize, sub, type Vec3 } from '../math/vec.ts';

/**
 * The common carrier of all carriers that are fixed to each other. The wheel belongs to the upright: it is checked as
 * the body that it sweeps in a full turn.
 */
export const rigidGroup = (carrier: Carrier): Carrier => (carrier === 'wheel' ? 'upright' : carrier);

/** The point that two carriers turn about, or with `axis` their hinge line. Vehicle axes at ride height. */
export interface Pivot {
  /** Name for messages: a hardpoint, or the two hardpoints of a hinge. */
  name: string;
  at: Vec3;
  axis: Vec3 | undefined;
}

/** The point or hinge that two carriers turn about at every pose; undefined if there is none. */
export function pivotBetween(corner: Corner, a: Carrier, b: Carrier): Pivot | undefined {
  const { hardpoints: h, damper } = corner.suspension;
  const point = (name: string, at: Vec3): Pivot => ({ name, at, axis: undefined });
  const pivots = layoutOf(corner.suspension).pivots.map(({ between, at, to }): [Carrier, Carrier, Pivot] => [
    ...between,
    to === undefined
      ? point(at, h[at])
      : { name: `the line through ${at} and ${to}`, at: h[at], axis: normalize(sub(h[to], h[at])) },
  ]);
  if (damper !== undefined) {
    const entry = corner.parts.find((part) => part.kind === 'damper');
    const atChassis = entry?.bodyEnd === 'chassis' ? 'damperBody' : 'damperRod';
    const atArm = atChassis === 'damperBody' ? 'damperRod' : 'damperBody';
    pivots.push(
      ['chassis', atChassis, point('damper.chassisMount', damper.chassisMount)],
      [damper.on, atArm, point('damper.armMount', damper.armMount)],
    );
  }
  const groups = [rigidGroup(a), rigidGroup(b)];
  return pivots.find(([one, other]) => groups.includes(one) && groups.includes(other))?.[2];
}
