import { branchOf, type Circle } from '../../math/circleSphere.ts';
import { applyPoint, fromAxes, invert, type Rigid } from '../../math/rigid.ts';
import { addScaled, cross, distance, dot, normalize, sub, type Vec3 } from '../../math/vec.ts';
import type { Linkage } from '../kinematics.ts';
import type { Hardpoints, Suspension } from '../suspension.ts';

/** An arm that turns about its pivot line. Its joint moves on a circle. */
export interface Arm extends Circle {
  /** Front pivot. The axis runs from front to rear. */
  front: Vec3;
  /** Unit vectors from the circle's centre: `u` to the joint at ride height, `v` perpendicular to `u` and the axis. */
  u: Vec3;
  v: Vec3;
}

/** A double wishbone with a rack, prepared for posing. Vehicle axes at ride height, mm. */
export interface RackLinkage extends Linkage {
  hardpoints: Hardpoints;
  lower: Arm;
  upper: Arm;
  kingpinLengthMm: number;
  tieRodLengthMm: number;
  /** Unit vector along the tie rod, from its inner end. */
  tieRodDirection: Vec3;
  /**
   * The circle of the tie rod's outer end about the kingpin: distance of its centre from the lower joint, and its
   * radius.
   */
  steeringArm: { alongMm: number; radiusMm: number };
  /**
   * The side on which the upper joint or the tie-rod end is assembled, from the line to the sphere's centre: +1 or
   * -1.
   */
  upperBranch: number;
  tieRodBranch: number;
  /** To the upright's own frame: origin at the lower joint, x to the upper joint, y toward the tie rod's outer end. */
  uprightFromVehicle: Rigid;
  wheelCentreInUpright: Vec3;
  rackDirection: Vec3;
  /** Sign of the rack's motion along `rackDirection` that turns the front edge toward the vehicle's left. */
  rackSense: number;
  rackOutboardMm: number;
  rackInboardMm: number;
}

function armOf(front: Vec3, rear: Vec3, joint: Vec3): Arm {
  const axis = normalize(sub(rear, front));
  const centre = addScaled(front, axis, dot(sub(joint, front), axis));
  const u = normalize(sub(joint, centre));
  return { front, axis, centre, radius: distance(joint, centre), u, v: cross(axis, u) };
}

/** `vehicleFromUpright` of an upright with these joints. `kingpin`: unit vector from the lower to the upper joint. */
function uprightFrame(lowerJoint: Vec3, kingpin: Vec3, tieRodOuter: Vec3): Rigid {
  const z = normalize(cross(kingpin, sub(tieRodOuter, lowerJoint)));
  return fromAxes(kingpin, cross(z, kingpin), z, lowerJoint);
}

/** Rotation from ride height of an arm whose joint is at `joint`, -pi to pi. */
export function armAngleAt(arm: Arm, joint: Vec3): number {
  const out = sub(joint, arm.centre);
  return Math.atan2(dot(out, arm.v), dot(out, arm.u));
}

/** The fields of `suspension.steering`. */
export interface RackFields {
  rackOutboard: number;
  rackInboard: number;
  rackDirection: Vec3;
}

/** Lengths, local coordinates, and the assembly branch of the hardpoints at ride height. */
export function linkageOf({ hardpoints, steering }: Suspension): RackLinkage {
  const { lowerJoint, upperJoint, tieRodInner, tieRodOuter } = hardpoints;
  const rack = steering as unknown as RackFields;
  const upper = armOf(hardpoints.upperArmFront, hardpoints.upperArmRear, upperJoint);
  const kingpin = normalize(sub(upperJoint, lowerJoint));
  const alongMm = dot(sub(tieRodOuter, lowerJoint), kingpin);
  const steeringCentre = addScaled(lowerJoint, kingpin, alongMm);
  const steeringCircle = {
    centre: steeringCentre,
    axis: kingpin,
    radius: distance(tieRodOuter, steeringCentre),
  };
  const uprightFromVehicle = invert(uprightFrame(lowerJoint, kingpin, tieRodOuter));
  const rackDirection = normalize(rack.rackDirection);
  // Rotation of the upright about the kingpin per unit of rack motion: the tie rod keeps its length.
  const tieRod = sub(tieRodOuter, tieRodInner);
  const turnRate = dot(tieRod, rackDirection) / dot(tieRod, cross(kingpin, sub(tieRodOuter, steeringCentre)));
  const lower = armOf(hardpoints.lowerArmFront, hardpoints.lowerArmRear, lowerJoint);
  return {
    armRadiusMm: lower.radius,
    inputPerRad: steeringCircle.radius,
    hardpoints,
    lower,
    upper,
    kingpinLengthMm: distance(lowerJoint, upperJoint),
    tieRodLengthMm: distance(tieRodInner, tieRodOuter),
    tieRodDirection: normalize(tieRod),
    steeringArm: { alongMm, radiusMm: steeringCircle.radius },
    upperBranch: branchOf(upper, lowerJoint, upperJoint),
    tieRodBranch: branchOf(steeringCircle, tieRodInner, tieRodOuter),
    uprightFromVehicle,
    wheelCentreInUpright: applyPoint(uprightFromVehicle, hardpoints.wheelCentre),
    rackDirection,
    rackSense: Math.sign(turnRate * kingpin[2]),
    rackOutboardMm: rack.rackOutboard,
    rackInboardMm: rack.rackInboard,
  };
}
