import type { Corner, Entry, JointPlace } from '../design/schema.ts';
import type { Layout } from '../layouts/layout.ts';
import { layoutOf } from '../layouts/layoutOf.ts';
import {
  applyDirection,
  applyPoint,
  compose,
  fromAxes,
  invert,
  type Rigid,
  translation,
} from '../math/rigid.ts';
import {
  addScaled,
  cross,
  distance,
  dot,
  length,
  normalize,
  perpendicular,
  scale,
  sub,
  type Vec3,
} from '../math/vec.ts';
import { boltDirection } from './jointPlace.ts';
import { axialStack, vehicleFromWheelAxis } from './wheelFrame.ts';

/** Places of the joints of an upright. Throws an Error if the layout of the suspension has no such part. */
export function uprightJoints({ suspension }: Pick<Corner, 'suspension'>): NonNullable<Layout['upright']> {
  const { upright } = layoutOf(suspension);
  if (upright === undefined) throw new Error('the layout of the suspension has no part of kind "upright"');
  return upright;
}

/** Whether a part of kind `upright` has a boss for the joint at a place. */
export const isUprightJoint = ({ suspension }: Pick<Corner, 'suspension'>, place: JointPlace): boolean =>
  Object.values(layoutOf(suspension).upright ?? {}).includes(place);

/** Frame of the hub pad: the wheel-axis frame with its origin in the pad's outboard face. */
export function padFrame(corner: Corner): Rigid {
  const stack = axialStack(corner);
  const faceY = stack.hubFaceY + stack.uprightFaceDepth;
  return compose(vehicleFromWheelAxis(corner.suspension), translation([0, faceY, 0]));
}

/** Depth of an upright's legs along the wheel axis, from the pad's face inboard, mm. */
export const legDepthMm = (entry: Pick<Entry<'upright'>, 'boxDepth' | 'plateThickness'>): number =>
  entry.boxDepth > 0 ? entry.boxDepth : entry.plateThickness;

/** Radius about the wheel axis at which the legs leave the plane of the pad, mm; by default at the pad's edge. */
export const kickOutRadiusMm = (entry: Pick<Entry<'upright'>, 'kickOutRadius' | 'hubMount'>): number =>
  entry.kickOutRadius ?? entry.hubMount.diameter / 2;

/** A boss of an upright, in the pad's frame. */
export interface BossPlace {
  /** Centre of the joint; then the boss's end toward it, its middle, and its end away from it. */
  joint: Vec3;
  near: Vec3;
  middle: Vec3;
  far: Vec3;
  /** Unit vector from the joint to the boss. */
  axis: Vec3;
}

/**
 * The boss that holds a joint's bolt. It is on the side of the joint that faces the other joint, for the upper and lower
 * one, or the middle of the pad, for the tie rod's.
 */
export function bossPlace(corner: Corner, entry: Entry<'upright'>, place: JointPlace): BossPlace {
  const padFromVehicle = invert(padFrame(corner));
  const { hardpoints } = corner.suspension;
  const joint = applyPoint(padFromVehicle, hardpoints[place]);
  const { lower, upper, steering } = uprightJoints(corner);
  const facing: Vec3 =
    place === steering
      ? [0, -entry.plateThickness / 2, 0]
      : applyPoint(padFromVehicle, hardpoints[place === lower ? upper : lower]);
  const bolt = applyDirection(padFromVehicle, boltDirection(corner, place));
  const axis = dot(bolt, sub(facing, joint)) < 0 ? scale(bolt, -1) : bolt;
  const { height } = entry.jointMounts;
  const near = addScaled(joint, axis, entry.jointGap);
  return {
    joint,
    near,
    middle: addScaled(near, axis, height / 2),
    far: addScaled(near, axis, height),
    axis,
  };
}

/** Unit vector from a joint to its boss, vehicle axes at ride height. */
export const bossOfJoint = (corner: Corner, entry: Entry<'upright'>, place: JointPlace): Vec3 =>
  applyDirection(padFrame(corner), bossPlace(corner, entry, place).axis);

/** Direction of a leg from the wheel axis toward its joint, square to the axis; unit vector in the pad's frame. */
export function legOutward({ joint: [x, , z] }: Pick<BossPlace, 'joint'>): Vec3 {
  const radius = Math.hypot(x, z);
  return [x / radius, 0, z / radius];
}

/** A steering arm: a bar with thickness, width and length along x, y and z of its frame. It starts at the origin. */
export interface ArmBar {
  padFromBar: Rigid;
  runMm: number;
}

/**
 * The steering arm: a straight flat bar from the middle of the pad's ring, at the point nearest to the joint, to the middle
 * of the boss. Its thickness is as nearly along the boss as the bar's direction allows. Throws an Error if the joint is in
 * the pad.
 */
export function armBar(boss: BossPlace, { hubMount, plateThickness }: Entry<'upright'>): ArmBar {
  const ringRadius = (hubMount.bore + hubMount.diameter) / 4;
  const jointRadius = Math.hypot(boss.joint[0], boss.joint[2]);
  const toRing = jointRadius > 0 ? ringRadius / jointRadius : 0;
  const root: Vec3 = [boss.joint[0] * toRing, -plateThickness / 2, boss.joint[2] * toRing];
  const run = distance(root, boss.middle);
  if (run === 0)
    throw new Error('the steering joint lies in the hub pad: there is no room for a steering arm');
  const z = scale(sub(boss.middle, root), 1 / run);
  const flat = addScaled(boss.axis, z, -dot(boss.axis, z));
  // If the bar is along the boss to within a thousandth of a radian, any direction of its flat side will do.
  const x = length(flat) > 1e-3 ? normalize(flat) : perpendicular(z);
  return { padFromBar: fromAxes(x, cross(z, x), z, root), runMm: run };
}
