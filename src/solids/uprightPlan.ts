import type { Corner, Entry } from '../design/schema.ts';
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

/** Where an upright takes a joint. */
export type UprightJoint = 'lowerJoint' | 'upperJoint' | 'tieRodOuter';

/** Frame of the hub pad: as the wheel-axis frame, with the origin in the pad's outboard face. */
export function padFrame(corner: Corner): Rigid {
  const stack = axialStack(corner);
  const faceY = stack.hubFaceY + stack.uprightFaceDepth;
  return compose(vehicleFromWheelAxis(corner.suspension), translation([0, faceY, 0]));
}

/** How deep the legs of an upright are along the wheel axis, from the pad's face inboard, mm. */
export const legDepthMm = (entry: Pick<Entry<'upright'>, 'boxDepth' | 'plateThickness'>): number =>
  entry.boxDepth > 0 ? entry.boxDepth : entry.plateThickness;

/** A boss of an upright, in the pad's frame. */
export interface BossPlace {
  /** Centre of the joint, and of the boss the end toward it, the middle and the end away from it. */
  joint: Vec3;
  near: Vec3;
  middle: Vec3;
  far: Vec3;
  /** Unit vector from the joint to the boss. */
  axis: Vec3;
}

/**
 * The boss that takes a joint's bolt, on that side of the joint which faces the rest of the upright: the other joint
 * for the upper and lower one, the middle of the pad for the tie rod's.
 */
export function bossPlace(corner: Corner, entry: Entry<'upright'>, place: UprightJoint): BossPlace {
  const padFromVehicle = invert(padFrame(corner));
  const { hardpoints } = corner.suspension;
  const joint = applyPoint(padFromVehicle, hardpoints[place]);
  const facing = {
    lowerJoint: applyPoint(padFromVehicle, hardpoints.upperJoint),
    upperJoint: applyPoint(padFromVehicle, hardpoints.lowerJoint),
    tieRodOuter: [0, -entry.plateThickness / 2, 0] as Vec3,
  }[place];
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
export const bossOfJoint = (corner: Corner, entry: Entry<'upright'>, place: UprightJoint): Vec3 =>
  applyDirection(padFrame(corner), bossPlace(corner, entry, place).axis);

/** The way that a leg runs from the wheel axis, square to it: toward its joint; unit vector in the pad's frame. */
export function legOutward({ joint: [x, , z] }: Pick<BossPlace, 'joint'>): Vec3 {
  const radius = Math.hypot(x, z);
  return [x / radius, 0, z / radius];
}

/** A steering arm: a bar whose thickness, width and run are along x, y and z of its frame, the run from its origin. */
export interface ArmBar {
  padFromBar: Rigid;
  runMm: number;
}

/**
 * The steering arm: a straight flat bar, its thickness as nearly along the boss as the bar's run
 * allows, from the middle of the pad's ring, where that is nearest to the joint, to the middle of the boss.
 */
export function armBar(boss: BossPlace, { hubMount, plateThickness }: Entry<'upright'>): ArmBar {
  const ringRadius = (hubMount.bore + hubMount.diameter) / 4;
  const jointRadius = Math.hypot(boss.joint[0], boss.joint[2]);
  const toRing = jointRadius > 0 ? ringRadius / jointRadius : 0;
  const root: Vec3 = [boss.joint[0] * toRing, -plateThickness / 2, boss.joint[2] * toRing];
  const run = distance(root, boss.middle);
  if (run === 0) throw new Error('tieRodOuter lies in the hub pad: there is no room for a steering arm');
  const z = scale(sub(boss.middle, root), 1 / run);
  const flat = addScaled(boss.axis, z, -dot(boss.axis, z));
  // Within a thousandth of a radian the bar runs along the boss, and its flat may lie either way.
  const x = length(flat) > 1e-3 ? normalize(flat) : perpendicular(z);
  return { padFromBar: fromAxes(x, cross(z, x), z, root), runMm: run };
}
