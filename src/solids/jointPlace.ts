import type { Corner, Entry, JointPlace } from '../design/schema.ts';
import type { Layout, LayoutJoint } from '../layouts/layout.ts';
import { layoutOf } from '../layouts/layoutOf.ts';
import { addScaled, dot, length, normalize, sub, type Vec3 } from '../math/vec.ts';
import type { JointAxes } from '../mechanism/jointTilt.ts';
import { entries } from './wheelFrame.ts';

/** The joint of the suspension's layout at a place. */
export const jointOf = ({ suspension }: Pick<Corner, 'suspension'>, place: JointPlace): LayoutJoint =>
  layoutOf(suspension).joints[place];

/** Far end of the member that carries a joint's housing; a rod end's shank points there. */
export const memberEnd = ({ suspension }: Pick<Corner, 'suspension'>, place: JointPlace): Vec3 =>
  jointOf({ suspension }, place).memberEnd(suspension.hardpoints);

/** Ends of the tie rod, with its carrier. Throws an Error if the layout of the suspension has none. */
export function tieRodOf({ suspension }: Pick<Corner, 'suspension'>): NonNullable<Layout['tieRod']> {
  const { tieRod } = layoutOf(suspension);
  if (tieRod === undefined) throw new Error('the layout of the suspension has no part of kind "tieRod"');
  return tieRod;
}

/** Directions of a joint's bolt and housing, each with its carrier. */
export function jointAxes(corner: Pick<Corner, 'suspension'>, entry: JointPose): JointAxes {
  const { bolt, housing } = jointOf(corner, entry.at);
  return {
    bolt: { carrier: bolt, direction: normalize(entry.boltDirection) },
    housing: { carrier: housing, direction: housingAxis(corner, entry) },
  };
}

export const jointEntry = (corner: Corner, place: JointPlace): Entry<'joint'> | undefined =>
  entries(corner, 'joint').find((joint) => joint.at === place);

/** Fields that give a joint's place and orientation at ride height. */
export type JointPose = Pick<Entry<'joint'>, 'at' | 'form' | 'boltDirection' | 'housingDirection'>;

/**
 * Unit vector along the axis of a joint's housing, vehicle axes at ride height: as given, else along the bolt. For a rod end,
 * its component square to the shank; along the bolt if that component is 0.
 */
export function housingAxis({ suspension }: Pick<Corner, 'suspension'>, entry: JointPose): Vec3 {
  const bolt = normalize(entry.boltDirection);
  const given = normalize(entry.housingDirection ?? bolt);
  if (entry.form !== 'rodEnd') return given;
  const shank = normalize(sub(memberEnd({ suspension }, entry.at), suspension.hardpoints[entry.at]));
  const square = addScaled(given, shank, -dot(given, shank));
  return length(square) > 0 ? normalize(square) : bolt;
}

/** Unit vector along the bolt of the joint at a place, vehicle axes at ride height; +Z if the file has no joint there. */
export const boltDirection = (corner: Corner, place: JointPlace): Vec3 =>
  normalize(jointEntry(corner, place)?.boltDirection ?? [0, 0, 1]);
