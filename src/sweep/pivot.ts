import type { Carrier, Corner } from '../design/schema.ts';
import { normalize, sub, type Vec3 } from '../math/vec.ts';

/** Carriers that ride together: the wheel turns on the upright, and is checked as its full turn. */
export const rigidGroup = (carrier: Carrier): Carrier => (carrier === 'wheel' ? 'upright' : carrier);

/** What two carriers turn about, vehicle axes at ride height: a point, or with `axis` the line through it. */
export interface Pivot {
  /** In words: a hardpoint's name, or the two of a hinge. */
  name: string;
  at: Vec3;
  axis: Vec3 | undefined;
}

/** The point or hinge about which two carriers turn at every pose; undefined where there is none. */
export function pivotBetween(corner: Corner, a: Carrier, b: Carrier): Pivot | undefined {
  const { hardpoints: h, damper } = corner.suspension;
  const hinge = (front: 'lowerArmFront' | 'upperArmFront', rear: 'lowerArmRear' | 'upperArmRear'): Pivot => ({
    name: `the line through ${front} and ${rear}`,
    at: h[front],
    axis: normalize(sub(h[rear], h[front])),
  });
  const point = (name: string, at: Vec3): Pivot => ({ name, at, axis: undefined });
  const pivots: [Carrier, Carrier, Pivot][] = [
    ['chassis', 'lowerArm', hinge('lowerArmFront', 'lowerArmRear')],
    ['chassis', 'upperArm', hinge('upperArmFront', 'upperArmRear')],
    ['lowerArm', 'upright', point('lowerJoint', h.lowerJoint)],
    ['upperArm', 'upright', point('upperJoint', h.upperJoint)],
    ['tieRod', 'upright', point('tieRodOuter', h.tieRodOuter)],
    ['rack', 'tieRod', point('tieRodInner', h.tieRodInner)],
  ];
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
