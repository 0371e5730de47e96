import { DesignProblems } from '../design/problem.ts';
import type { Suspension } from '../design/schema.ts';
import { branchOf } from '../math/circleSphere.ts';
import { applyPoint, invert } from '../math/rigid.ts';
import { addScaled, cross, distance, dot, normalize, sub, type Vec3 } from '../math/vec.ts';
import { assemble } from './assemble.ts';
import { memberProblems, rangeProblems } from './geometryProblems.ts';
import { type Arm, type Mechanism, uprightFrame } from './linkage.ts';
import { spinAxis } from './spinAxis.ts';

export type { Mechanism } from './linkage.ts';
export { solvePose } from './solvePose.ts';

function armOf(front: Vec3, rear: Vec3, joint: Vec3): Arm {
  const axis = normalize(sub(rear, front));
  const centre = addScaled(front, axis, dot(sub(joint, front), axis));
  const u = normalize(sub(joint, centre));
  return { front, axis, centre, radius: distance(joint, centre), u, v: cross(axis, u) };
}

/**
 * Makes a suspension ready to be posed: lengths, local coordinates, and the assembly branch that the hardpoints show
 * at ride height. Throws DesignProblems with the fields at fault where a member has no length, where members stand in
 * line so that the branch cannot be told, or where arm or rack could not move the wheel.
 */
export function prepareMechanism(
  suspension: Suspension,
  { damperBodyEnd }: { damperBodyEnd: 'chassis' | 'arm' } = { damperBodyEnd: 'arm' },
): Mechanism {
  const members = memberProblems(suspension);
  if (members.length > 0) throw new DesignProblems(members);

  const { hardpoints, steering } = suspension;
  const { lowerJoint, upperJoint, tieRodInner, tieRodOuter } = hardpoints;
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
  const rackDirection = normalize(steering.rackDirection);
  // Turn of the upright about the kingpin for a unit of rack motion: the tie rod keeps its length.
  const tieRod = sub(tieRodOuter, tieRodInner);
  const turnRate = dot(tieRod, rackDirection) / dot(tieRod, cross(kingpin, sub(tieRodOuter, steeringCentre)));
  const mechanism: Mechanism = {
    hardpoints,
    damper: suspension.damper,
    damperBodyEnd,
    spinAxis: spinAxis(suspension),
    lower: armOf(hardpoints.lowerArmFront, hardpoints.lowerArmRear, lowerJoint),
    upper,
    kingpinLengthMm: distance(lowerJoint, upperJoint),
    tieRodLengthMm: distance(tieRodInner, tieRodOuter),
    steeringArm: { alongMm, radiusMm: steeringCircle.radius },
    upperBranch: branchOf(upper, lowerJoint, upperJoint),
    tieRodBranch: branchOf(steeringCircle, tieRodInner, tieRodOuter),
    uprightFromVehicle,
    wheelCentreInUpright: applyPoint(uprightFromVehicle, hardpoints.wheelCentre),
    bumpSense: 1,
    rackDirection,
    rackSense: Math.sign(turnRate * kingpin[2]),
    rackOutboardMm: steering.rackOutboard,
    rackInboardMm: steering.rackInboard,
  };
  const atRideHeight = assemble(mechanism, 0, 0);
  const range = rangeProblems(suspension, mechanism, atRideHeight);
  if (range.length > 0 || atRideHeight === undefined) throw new DesignProblems(range);
  mechanism.bumpSense = Math.sign(atRideHeight.riseRateMm);
  return mechanism;
}
