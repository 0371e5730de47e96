import { applyPoint } from '../math/rigid.ts';
import { distance, type Vec3 } from '../math/vec.ts';
import type { Mechanism } from './linkage.ts';
import type { Carriers } from './pose.ts';

/**
 * The largest error of a pose, mm, measured on the carriers alone and by no step of the way they were found: lengths of
 * both legs of either arm, of the tie rod and within the upright; joints that two carriers share; the travel.
 */
export function residualMm(m: Mechanism, carriers: Carriers, travelMm: number): number {
  const h = m.hardpoints;
  const lowerJoint = applyPoint(carriers.upright, h.lowerJoint);
  const upperJoint = applyPoint(carriers.upright, h.upperJoint);
  const tieRodOuter = applyPoint(carriers.upright, h.tieRodOuter);
  const wheelCentre = applyPoint(carriers.upright, h.wheelCentre);
  const tieRodInner = applyPoint(carriers.rack, h.tieRodInner);
  const stretch = (a: Vec3, b: Vec3, a0: Vec3, b0: Vec3) => Math.abs(distance(a, b) - distance(a0, b0));
  return Math.max(
    stretch(lowerJoint, h.lowerArmFront, h.lowerJoint, h.lowerArmFront),
    stretch(lowerJoint, h.lowerArmRear, h.lowerJoint, h.lowerArmRear),
    stretch(upperJoint, h.upperArmFront, h.upperJoint, h.upperArmFront),
    stretch(upperJoint, h.upperArmRear, h.upperJoint, h.upperArmRear),
    stretch(tieRodOuter, tieRodInner, h.tieRodOuter, h.tieRodInner),
    stretch(lowerJoint, upperJoint, h.lowerJoint, h.upperJoint),
    stretch(lowerJoint, tieRodOuter, h.lowerJoint, h.tieRodOuter),
    stretch(upperJoint, tieRodOuter, h.upperJoint, h.tieRodOuter),
    stretch(lowerJoint, wheelCentre, h.lowerJoint, h.wheelCentre),
    stretch(upperJoint, wheelCentre, h.upperJoint, h.wheelCentre),
    stretch(tieRodOuter, wheelCentre, h.tieRodOuter, h.wheelCentre),
    distance(lowerJoint, applyPoint(carriers.lowerArm, h.lowerJoint)),
    distance(upperJoint, applyPoint(carriers.upperArm, h.upperJoint)),
    distance(tieRodOuter, applyPoint(carriers.tieRod, h.tieRodOuter)),
    distance(tieRodInner, applyPoint(carriers.tieRod, h.tieRodInner)),
    Math.abs(wheelCentre[2] - h.wheelCentre[2] - travelMm),
  );
}
