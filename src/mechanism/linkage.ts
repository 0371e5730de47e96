import type { Hardpoints, Suspension } from '../design/schema.ts';
import type { Circle } from '../math/circleSphere.ts';
import { fromAxes, type Rigid } from '../math/rigid.ts';
import { cos, sin } from '../math/sine.ts';
import { addScaled, cross, dot, normalize, scale, sub, type Vec3 } from '../math/vec.ts';

/** An arm that turns about its pivot line; its joint runs on a circle. */
export interface Arm extends Circle {
  /** Front pivot. The axis runs from front to rear. */
  front: Vec3;
  /** Unit vectors from the circle's centre: to the joint at ride height, and square to that and the axis. */
  u: Vec3;
  v: Vec3;
}

/** A double wishbone with a rack, made ready to be posed. Vehicle axes at ride height, mm. */
export interface Mechanism {
  hardpoints: Hardpoints;
  damper: Suspension['damper'];
  /** Which mount the damper's body hangs on. */
  damperBodyEnd: 'chassis' | 'arm';
  /** Outboard along the wheel's spin axis. */
  spinAxis: Vec3;
  lower: Arm;
  upper: Arm;
  kingpinLengthMm: number;
  tieRodLengthMm: number;
  /** The circle of the tie rod's outer end about the kingpin: its centre's place from the lower joint, its radius. */
  steeringArm: { alongMm: number; radiusMm: number };
  /** On which side of the line to the sphere's centre upper joint and tie-rod end are assembled: +1 or -1. */
  upperBranch: number;
  tieRodBranch: number;
  /** The upright's own frame: lower joint, x to the upper joint, y toward the tie rod's outer end. */
  uprightFromVehicle: Rigid;
  wheelCentreInUpright: Vec3;
  /** Sign of the lower arm's turn that lifts the wheel. */
  bumpSense: number;
  rackDirection: Vec3;
  /** Sign of the rack's motion along `rackDirection` that turns the front edge toward the vehicle's left. */
  rackSense: number;
  rackOutboardMm: number;
  rackInboardMm: number;
}

/** The frame of an upright whose joints stand so: `vehicleFromUpright`. `kingpin` is the unit vector between joints. */
export function uprightFrame(lowerJoint: Vec3, kingpin: Vec3, tieRodOuter: Vec3): Rigid {
  const z = normalize(cross(kingpin, sub(tieRodOuter, lowerJoint)));
  return fromAxes(kingpin, cross(z, kingpin), z, lowerJoint);
}

/** Where the tie rod's inner end stands with the rack moved by `rackMm` along its direction. */
export const tieRodInnerAt = (mechanism: Mechanism, rackMm: number): Vec3 =>
  addScaled(mechanism.hardpoints.tieRodInner, mechanism.rackDirection, rackMm);

/** Rack displacement along `rackDirection`, mm, at a steer of -1 (front edge inboard) to +1. */
export const rackAt = (mechanism: Mechanism, steer: number): number =>
  mechanism.rackSense * steer * (steer > 0 ? mechanism.rackOutboardMm : mechanism.rackInboardMm);

/** A point of the arm's circle, the arm turned by `angleRad` (right-hand rule, front to rear) from ride height. */
export function jointAt(arm: Arm, angleRad: number): Vec3 {
  const out = addScaled(arm.centre, arm.u, arm.radius * cos(angleRad));
  return addScaled(out, arm.v, arm.radius * sin(angleRad));
}

/** Turn from ride height of an arm whose joint stands at `joint`, -pi to pi. */
export function armAngleAt(arm: Arm, joint: Vec3): number {
  const out = sub(joint, arm.centre);
  return Math.atan2(dot(out, arm.v), dot(out, arm.u));
}

/** Velocity of a point that turns about the arm's pivot line by one radian a unit. */
export const velocityOnArm = (arm: Arm, joint: Vec3): Vec3 => cross(arm.axis, sub(joint, arm.centre));

/** Unit vector from the lower joint to the upper one. */
export const kingpinAt = (mechanism: Mechanism, lowerJoint: Vec3, upperJoint: Vec3): Vec3 =>
  scale(sub(upperJoint, lowerJoint), 1 / mechanism.kingpinLengthMm);
