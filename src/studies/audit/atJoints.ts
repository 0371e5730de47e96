import type { Carrier, Corner, Entry } from '../../design/schema.ts';
import { layoutOf } from '../../layouts/layoutOf.ts';
import { applyDirection, applyPoint } from '../../math/rigid.ts';
import { addScaled, distance, midpoint, normalize, sub, type Vec3 } from '../../math/vec.ts';
import { damperRangeMm } from '../../solids/damperRange.ts';
import { jointOf, memberEnd } from '../../solids/jointPlace.ts';
import { bossPlace, isUprightJoint, padFrame } from '../../solids/uprightPlan.ts';
import type { Intended, SolidRef } from './intendedContact.ts';
import type { Region } from './region.ts';

/** Intended contact of joints with their members, and of the two halves of a damper. */
export function atJoints(corner: Corner, a: SolidRef, b: SolidRef): Intended[] {
  const [one, other] = [corner.parts[a.partIndex], corner.parts[b.partIndex]];
  if (one.kind === 'damper' && a.partIndex === b.partIndex) return damperHalves(corner, one);
  if (one.kind === 'joint') return jointIn(corner, one, a, b);
  return other.kind === 'joint' ? jointIn(corner, other, b, a) : [];
}

const cylinder = (from: Vec3, to: Vec3, radiusMm: number, innerRadiusMm = 0): Region => ({
  shape: 'round',
  centre: midpoint(from, to),
  axis: normalize(sub(to, from)),
  halfLengthMm: distance(from, to) / 2,
  radiusMm,
  innerRadiusMm,
});

function jointIn(corner: Corner, joint: Entry<'joint'>, self: SolidRef, member: SolidRef): Intended[] {
  const entry = corner.parts[member.partIndex];
  const centre = corner.suspension.hardpoints[joint.at];
  const ball: Intended = {
    what: 'ball in its seat',
    region: { shape: 'ball', centre, radiusMm: joint.ballDiameter / 2 },
    carrier: jointOf(corner, joint.at).housing,
  };
  if (self.partIndex === member.partIndex) return [ball];
  switch (entry.kind) {
    case 'upright':
      return boltInBoss(corner, joint, entry);
    case 'controlArm': {
      const { front, rear, joint: outer } = layoutOf(corner.suspension).arms[entry.arm];
      if (![front, rear, outer].includes(joint.at)) return [];
      if (self.carrier === member.carrier)
        return [{ what: 'housing welded into the arm', region: { shape: 'all' }, carrier: self.carrier }];
      return joint.at === outer ? [ball] : [ball, boltThroughPivot(corner, joint, entry)];
    }
    case 'tieRod':
      return self.carrier === member.carrier ? shankInTube(corner, joint, centre) : [];
    default:
      return [];
  }
}

/**
 * The bolt through the upright's boss, from the near face to the far face, and both faces of the boss. The same
 * regions apply to the joint's housing. Contact of the housing with the bolt, which keeps it out of the boss, belongs
 * to another pair.
 */
function boltInBoss(corner: Corner, joint: Entry<'joint'>, upright: Entry<'upright'>): Intended[] {
  const { at } = joint;
  if (!isUprightJoint(corner, at)) return [];
  const vehicleFromPad = padFrame(corner);
  const boss = bossPlace(corner, upright, at);
  const [near, far] = [applyPoint(vehicleFromPad, boss.near), applyPoint(vehicleFromPad, boss.far)];
  const axis = applyDirection(vehicleFromPad, boss.axis);
  const radiusMm = upright.jointMounts.diameter / 2;
  const carrier: Carrier = 'upright';
  return [
    { what: 'bolt in its boss', region: cylinder(near, far, joint.boltDiameter / 2), carrier },
    ...[near, far].map(
      (centre): Intended => ({
        what: 'clamped faces of the boss',
        region: { shape: 'round', centre, axis, halfLengthMm: 0, radiusMm },
        carrier,
      }),
    ),
  ];
}

/** The bolt of an inner joint through the arm's barrel. */
function boltThroughPivot(corner: Corner, joint: Entry<'joint'>, arm: Entry<'controlArm'>): Intended {
  const centre = corner.suspension.hardpoints[joint.at];
  const axis = normalize(joint.boltDirection);
  const [from, to] = [-1, 1].map((side) => addScaled(centre, axis, (side * arm.pivotLength) / 2));
  return {
    what: 'bolt in its barrel',
    region: cylinder(from, to, joint.boltDiameter / 2),
    carrier: jointOf(corner, joint.at).bolt,
  };
}

function shankInTube(
  corner: Corner,
  { at, shankDiameter, shankLength }: Entry<'joint'>,
  centre: Vec3,
): Intended[] {
  if (shankDiameter === undefined || shankLength === undefined) return [];
  const toEnd = normalize(sub(memberEnd(corner, at), centre));
  return [
    {
      what: 'shank threaded into the tube',
      region: cylinder(centre, addScaled(centre, toEnd, shankLength), shankDiameter / 2),
      carrier: jointOf(corner, at).housing,
    },
  ];
}

/**
 * The rod inside the body, from the edge of the rod's eye outward. With a spring, the two halves of its envelope,
 * which slide over each other up to the rod's mount. Any other contact with the rod's eye means that the damper has
 * bottomed.
 */
function damperHalves({ suspension }: Corner, damper: Entry<'damper'>): Intended[] {
  const mounts = suspension.damper;
  if (mounts === undefined) return [];
  const { chassisMount, armMount } = mounts;
  const [rodEye, bodyEye] =
    damper.bodyEnd === 'chassis' ? [armMount, chassisMount] : [chassisMount, armMount];
  const along = normalize(sub(bodyEye, rodEye));
  const { longest } = damperRangeMm(suspension);
  const from = (mm: number) => addScaled(rodEye, along, mm);
  const eyeMm = damper.eyeDiameter / 2;
  const { spring, rodDiameter, bodyDiameter } = damper;
  const carrier: Carrier = 'damperRod';
  const slide = (what: string, fromMm: number, radiusMm: number, innerMm = 0): Intended => ({
    what,
    region: cylinder(from(fromMm), from(longest), radiusMm, innerMm),
    carrier,
  });
  if (spring === undefined) return [slide('rod in the body', eyeMm, rodDiameter / 2)];
  return [
    slide('spring over rod and body', eyeMm, spring.outerDiameter / 2),
    slide('spring up to its seat', 0, spring.outerDiameter / 2, bodyDiameter / 2),
  ];
}
