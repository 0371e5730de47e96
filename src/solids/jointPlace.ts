import type { Carrier, Corner, Entry, Hardpoints, JointPlace } from '../design/schema.ts';
import { addScaled, dot, length, midpoint, normalize, sub, type Vec3 } from '../math/vec.ts';
import type { JointAxes } from '../mechanism/jointTilt.ts';
import { entries } from './wheelFrame.ts';

/** The member that a joint's housing rides on. The joints at the upright belong to the arms and the tie rod. */
export const JOINT_CARRIER: Readonly<Record<JointPlace, Carrier>> = {
  lowerJoint: 'lowerArm',
  upperJoint: 'upperArm',
  tieRodInner: 'tieRod',
  tieRodOuter: 'tieRod',
  lowerArmFront: 'lowerArm',
  lowerArmRear: 'lowerArm',
  upperArmFront: 'upperArm',
  upperArmRear: 'upperArm',
};

/** The member that a joint's bolt rides on: what the housing turns against. */
export const BOLT_CARRIER: Readonly<Record<JointPlace, Carrier>> = {
  lowerJoint: 'upright',
  upperJoint: 'upright',
  tieRodInner: 'rack',
  tieRodOuter: 'upright',
  lowerArmFront: 'chassis',
  lowerArmRear: 'chassis',
  upperArmFront: 'chassis',
  upperArmRear: 'chassis',
};

/** The far end of the member that a joint's housing rides on: where a rod end's shank points. */
export function memberEnd(hardpoints: Hardpoints, place: JointPlace): Vec3 {
  switch (place) {
    case 'lowerJoint':
      return midpoint(hardpoints.lowerArmFront, hardpoints.lowerArmRear);
    case 'upperJoint':
      return midpoint(hardpoints.upperArmFront, hardpoints.upperArmRear);
    case 'tieRodInner':
      return hardpoints.tieRodOuter;
    case 'tieRodOuter':
      return hardpoints.tieRodInner;
    case 'lowerArmFront':
    case 'lowerArmRear':
      return hardpoints.lowerJoint;
    case 'upperArmFront':
    case 'upperArmRear':
      return hardpoints.upperJoint;
  }
}

/** Bolt and housing of a joint, each with the member that it rides on. */
export const jointAxes = (corner: Pick<Corner, 'suspension'>, entry: JointPose): JointAxes => ({
  bolt: { carrier: BOLT_CARRIER[entry.at], direction: normalize(entry.boltDirection) },
  housing: { carrier: JOINT_CARRIER[entry.at], direction: housingAxis(corner, entry) },
});

export const jointEntry = (corner: Corner, place: JointPlace): Entry<'joint'> | undefined =>
  entries(corner, 'joint').find((joint) => joint.at === place);

/** Where a joint is and how it stands there at ride height. */
export type JointPose = Pick<Entry<'joint'>, 'at' | 'form' | 'boltDirection' | 'housingDirection'>;

/**
 * Unit vector along the axis of a joint's housing, vehicle axes at ride height: as given, else along the bolt. A rod end's
 * is the part of that which is square to its shank; along the bolt where nothing of it is.
 */
export function housingAxis(
  { suspension: { hardpoints } }: Pick<Corner, 'suspension'>,
  entry: JointPose,
): Vec3 {
  const bolt = normalize(entry.boltDirection);
  const given = normalize(entry.housingDirection ?? bolt);
  if (entry.form !== 'rodEnd') return given;
  const shank = normalize(sub(memberEnd(hardpoints, entry.at), hardpoints[entry.at]));
  const square = addScaled(given, shank, -dot(given, shank));
  return length(square) > 0 ? normalize(square) : bolt;
}

/** Unit vector along the bolt of the joint at a place, vehicle axes at ride height; upright where no joint is drawn. */
export const boltDirection = (corner: Corner, place: JointPlace): Vec3 =>
  normalize(jointEntry(corner, place)?.boltDirection ?? [0, 0, 1]);
