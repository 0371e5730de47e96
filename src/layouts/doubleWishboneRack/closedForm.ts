import type { Algebra, Kind, VecOf } from '../../math/algebra.ts';
import { type CircleSphere, meetCircleSphere } from '../../math/circleSphere.ts';
import type { Posed, Rates } from '../kinematics.ts';
import type { RackLinkage } from './linkage.ts';

/** The linkage at an angle of the lower arm and a rack displacement. */
export interface PosedLinkage<K extends Kind> extends Posed<K> {
  lowerTurn: K['turn'];
  lowerJoint: VecOf<K>;
  upperJoint: VecOf<K>;
  /** Unit vector, lower joint to upper joint. */
  kingpin: VecOf<K>;
  tieRodInner: VecOf<K>;
  tieRodOuter: VecOf<K>;
  /** From the lower joint. */
  toOuter: VecOf<K>;
  toWheel: VecOf<K>;
  /** How the upper joint and the tie rod's outer end were found. */
  upper: CircleSphere<K>;
  tieRod: CircleSphere<K>;
}

/** Rates per radian of the lower arm with the rack fixed. */
export interface LinkageRates<K extends Kind> extends Rates<K> {
  lowerJoint: VecOf<K>;
  kingpin: VecOf<K>;
  /** From the inner to the outer end of the tie rod. */
  rod: VecOf<K>;
  /** Rate of half the squared length of the tie rod per radian of the upright about the kingpin. */
  perSpin: K['scalar'];
}

/**
 * Computes three joints. The lower joint is on its circle. The upper joint is where its circle meets the sphere of
 * the kingpin's length about the lower joint. The tie-rod end is where its circle about the kingpin meets the sphere
 * of the tie rod's length about the inner end. The result is always on the branch of ride height; undefined if a
 * member does not reach.
 */
export function poseLinkage<K extends Kind>(
  A: Algebra<K>,
  m: RackLinkage,
  lowerArmRad: K['scalar'],
  rackMm: K['scalar'],
): PosedLinkage<K> | undefined {
  const lowerTurn = A.turn(lowerArmRad);
  const lowerJoint = A.onCircle(m.lower, lowerTurn);
  const upperCircle = { centre: A.vec(m.upper.centre), axis: A.vec(m.upper.axis), radius: m.upper.radius };
  const upper = meetCircleSphere(A, upperCircle, lowerJoint, m.kingpinLengthMm, m.upperBranch);
  const upperJoint = upper.point;
  if (upperJoint === undefined) return undefined;
  const kingpin = A.scale(A.sub(upperJoint, lowerJoint), 1 / m.kingpinLengthMm);
  const steeringCircle = {
    centre: A.addScaled(lowerJoint, kingpin, m.steeringArm.alongMm),
    axis: kingpin,
    radius: m.steeringArm.radiusMm,
  };
  const tieRodInner = A.along(A.vec(m.hardpoints.tieRodInner), m.rackDirection, rackMm);
  const tieRod = meetCircleSphere(A, steeringCircle, tieRodInner, m.tieRodLengthMm, m.tieRodBranch);
  const tieRodOuter = tieRod.point;
  if (tieRodOuter === undefined) return undefined;

  const toOuter = A.sub(tieRodOuter, lowerJoint);
  const z = A.scale(A.cross(kingpin, toOuter), 1 / m.steeringArm.radiusMm);
  const toWheel = A.combine(kingpin, A.cross(z, kingpin), z, m.wheelCentreInUpright);
  const height = A.plus(A.part(lowerJoint, 2), A.part(toWheel, 2));
  return {
    lowerTurn,
    lowerJoint,
    upperJoint,
    kingpin,
    tieRodInner,
    tieRodOuter,
    toOuter,
    toWheel,
    upper,
    tieRod,
    rise: A.offset(height, -m.hardpoints.wheelCentre[2]),
  };
}

/** The rates of a posed linkage, from its velocities. */
export function linkageRates<K extends Kind>(
  A: Algebra<K>,
  m: RackLinkage,
  { lowerJoint, upperJoint, kingpin, tieRodInner, tieRodOuter, toOuter, toWheel }: PosedLinkage<K>,
): LinkageRates<K> {
  const lowerRate = A.velocityAbout(m.lower, lowerJoint);
  // The kingpin keeps its length, so both joints have the same velocity along it.
  const upperTurn = A.velocityAbout(m.upper, upperJoint);
  const upperRate = A.mul(upperTurn, A.over(A.dot(kingpin, lowerRate), A.dot(kingpin, upperTurn)));
  const kingpinRate = A.scale(A.sub(upperRate, lowerRate), 1 / m.kingpinLengthMm);
  // The upright turns with the kingpin, and about it at the rate that keeps the tie rod's length.
  const tilt = A.cross(kingpin, kingpinRate);
  const rod = A.sub(tieRodOuter, tieRodInner);
  const withoutSpin = A.add(lowerRate, A.cross(tilt, toOuter));
  const perSpin = A.dot(rod, A.cross(kingpin, toOuter));
  const turn = A.subMul(tilt, kingpin, A.over(A.dot(rod, withoutSpin), perSpin));
  return {
    rise: A.heightRate(lowerRate, turn, toWheel),
    lowerJoint: lowerRate,
    kingpin: kingpinRate,
    rod,
    perSpin,
  };
}

/** The tie rod can spin about its own line. It gets no spin here: the smallest rotation from its direction at ride height. */
export function linkageMembers<K extends Kind>(
  A: Algebra<K>,
  m: RackLinkage,
  { lowerTurn, lowerJoint, upperJoint, kingpin, tieRodInner, tieRodOuter, toOuter }: PosedLinkage<K>,
): Record<'rack' | 'lowerArm' | 'upperArm' | 'upright' | 'tieRod', K['frame']> {
  const { hardpoints: h, lower, upper } = m;
  const out = A.sub(upperJoint, A.vec(upper.centre));
  const upperTurn = A.turnTo(A.component(out, upper.u), A.component(out, upper.v), upper.radius);
  const z = A.unitOf(A.cross(kingpin, toOuter), m.steeringArm.radiusMm);
  const rod = A.unitOf(A.sub(tieRodOuter, tieRodInner), m.tieRodLengthMm);
  return {
    rack: A.shift(h.tieRodInner, tieRodInner),
    lowerArm: A.about(lower.front, lower.axis, lowerTurn, h.lowerJoint, lowerJoint),
    upperArm: A.about(upper.front, upper.axis, upperTurn, h.upperJoint, upperJoint),
    upright: A.placed([kingpin, A.cross(z, kingpin), z], lowerJoint, m.uprightFromVehicle, h.lowerJoint),
    tieRod: A.leastTurn(m.tieRodDirection, rod, h.tieRodInner, tieRodInner),
  };
}
