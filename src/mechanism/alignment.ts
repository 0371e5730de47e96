import { layoutOf } from '../layouts/layoutOf.ts';
import { applyDirection, applyPoint } from '../math/rigid.ts';
import { addScaled, cross, distance, dot, normalize, sub, type Vec3 } from '../math/vec.ts';
import type { Alignment, SolvedPose } from './pose.ts';
import type { Mechanism } from './prepared.ts';

const DEGREES = 180 / Math.PI;
const UP: Vec3 = [0, 0, 1];

/** Circle in the tyre's mid-plane about the wheel axis, on which the tyre rolls. */
export interface TyreCircle {
  radiusMm: number;
  /** Offset of the circle's plane from the wheel-centre hardpoint along the wheel axis, positive outboard, mm. */
  planeMm: number;
}

const toeOf = (spinAxis: Vec3): number => Math.atan2(spinAxis[0], spinAxis[1]);

/** The same direction as an angle above -pi and at most pi. */
const wrapped = (angleRad: number): number =>
  angleRad - 2 * Math.PI * Math.ceil(angleRad / (2 * Math.PI) - 0.5);

/** The wheel and its steering axis at a pose, in vehicle axes, mm. */
export interface WheelPlace {
  /** Unit vector along the spin axis, outboard. */
  spin: Vec3;
  /** From the lower point of the steering axis to the upper one. */
  kingpin: Vec3;
  wheelCentre: Vec3;
  /** The lowest point of the tyre's circle: the contact centre. */
  contact: Vec3;
  /** Where the steering axis meets the horizontal plane through the contact centre. */
  kingpinAtGround: Vec3;
}

/** The wheel and its steering axis of the left corner at a pose. */
export function wheelPlace(mechanism: Mechanism, pose: SolvedPose, tyre: TyreCircle): WheelPlace {
  const { hardpoints } = mechanism;
  const { kingpin: axis } = layoutOf(mechanism);
  const { upright } = pose.carriers;
  const spin = applyDirection(upright, mechanism.spinAxis);
  const lower = applyPoint(upright, hardpoints[axis.lower]);
  const kingpin = sub(applyPoint(upright, hardpoints[axis.upper]), lower);
  const wheelCentre = applyPoint(upright, hardpoints.wheelCentre);
  const wheelUp = normalize(addScaled(UP, spin, -spin[2]));
  const contact = addScaled(addScaled(wheelCentre, spin, tyre.planeMm), wheelUp, -tyre.radiusMm);
  const kingpinAtGround = addScaled(lower, kingpin, (contact[2] - lower[2]) / kingpin[2]);
  return { spin, kingpin, wheelCentre, contact, kingpinAtGround };
}

/**
 * Wheel alignment of the left corner at a pose, as defined in ISO 8855:2011 (from memory) and SAE J670. Camber is
 * positive with the top outboard, toe is positive inward, caster is positive with the kingpin's top rearward, kingpin
 * inclination is positive with the top inboard. The contact centre is the lowest point of the tyre's circle on the
 * mounted wheel. Scrub radius and trail lie in the horizontal plane through it. Scrub radius is perpendicular to the
 * wheel plane, positive with the contact centre outboard of the kingpin. Trail is along the wheel plane, positive
 * with the contact centre behind it.
 */
export function alignmentAt(mechanism: Mechanism, pose: SolvedPose, tyre: TyreCircle): Alignment {
  const { damper, linkage } = mechanism;
  const { spin, kingpin, wheelCentre, contact, kingpinAtGround } = wheelPlace(mechanism, pose, tyre);
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
    armAngleDeg: layoutOf(mechanism).kinematics.armRad(linkage, pose.carriers) * DEGREES,
  };
}
