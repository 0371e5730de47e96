import { applyDirection, applyPoint } from '../math/rigid.ts';
import { addScaled, cross, distance, dot, normalize, sub, type Vec3 } from '../math/vec.ts';
import { armAngleAt, type Mechanism } from './linkage.ts';
import type { Alignment, SolvedPose } from './pose.ts';

const DEGREES = 180 / Math.PI;
const UP: Vec3 = [0, 0, 1];

/** Circle in the tyre's mid-plane about the wheel axis, on which the tyre rolls. */
export interface TyreCircle {
  radiusMm: number;
  /** Of its plane along the wheel axis from the wheel-centre hardpoint, positive outboard, mm. */
  planeMm: number;
}

const toeOf = (spinAxis: Vec3): number => Math.atan2(spinAxis[0], spinAxis[1]);

/** The same direction, as an angle above -pi and at most pi. */
const wrapped = (angleRad: number): number =>
  angleRad - 2 * Math.PI * Math.ceil(angleRad / (2 * Math.PI) - 0.5);

/**
 * Wheel alignment of the left corner at a pose, by the definitions of ISO 8855:2011 (from memory) and SAE J670: camber
 * positive with the top outboard, toe positive inward, caster positive with the kingpin's top rearward, its inclination
 * positive with the top inboard. The contact centre is the lowest point of the tyre's circle, as the wheel is mounted;
 * scrub radius and trail are measured in the horizontal plane through it, square to the wheel plane and along it: positive
 * with the contact centre outboard of the kingpin's point, and behind it.
 */
export function alignmentAt(mechanism: Mechanism, pose: SolvedPose, tyre: TyreCircle): Alignment {
  const { hardpoints, damper } = mechanism;
  const { upright, lowerArm } = pose.carriers;
  const spin = applyDirection(upright, mechanism.spinAxis);
  const lowerJoint = applyPoint(upright, hardpoints.lowerJoint);
  const kingpin = sub(applyPoint(upright, hardpoints.upperJoint), lowerJoint);
  const wheelCentre = applyPoint(upright, hardpoints.wheelCentre);

  const wheelUp = normalize(addScaled(UP, spin, -spin[2]));
  const contact = addScaled(addScaled(wheelCentre, spin, tyre.planeMm), wheelUp, -tyre.radiusMm);
  const kingpinAtGround = addScaled(lowerJoint, kingpin, (contact[2] - lowerJoint[2]) / kingpin[2]);
  const fromKingpin = sub(contact, kingpinAtGround);
  const forward = normalize(cross(spin, UP));
  const outboard = cross(UP, forward);

  const toe = toeOf(spin);
  return {
    camberDeg: Math.atan2(-spin[2], Math.hypot(spin[0], spin[1])) * DEGREES,
    toeDeg: toe * DEGREES,
    roadWheelAngleDeg: wrapped(toeOf(mechanism.spinAxis) - toe) * DEGREES,
    casterDeg: Math.atan2(-kingpin[0], kingpin[2]) * DEGREES,
    kingpinInclinationDeg: Math.atan2(-kingpin[1], kingpin[2]) * DEGREES,
    scrubRadiusMm: dot(fromKingpin, outboard),
    mechanicalTrailMm: -dot(fromKingpin, forward),
    halfTrackMm: contact[1],
    wheelCentreMm: wheelCentre,
    damperLengthMm:
      damper && distance(damper.chassisMount, applyPoint(pose.carriers[damper.on], damper.armMount)),
    lowerArmAngleDeg: armAngleAt(mechanism.lower, applyPoint(lowerArm, hardpoints.lowerJoint)) * DEGREES,
  };
}
