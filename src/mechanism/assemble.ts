import { type Circle, cosineRate, meetCircleSphere } from '../math/circleSphere.ts';
import { add, addScaled, cross, dot, scale, sub, type Vec3 } from '../math/vec.ts';
import { jointAt, kingpinAt, type Mechanism, tieRodInnerAt, velocityOnArm } from './linkage.ts';

/**
 * The mechanism put together at a lower-arm angle and a rack displacement, in closed form. Rates are per radian of the
 * lower arm with the rack held, unless they say otherwise.
 */
export interface Assembly {
  lowerArmRad: number;
  rackMm: number;
  lowerJoint: Vec3;
  upperJoint: Vec3;
  /** Unit vector, lower joint to upper joint. */
  kingpin: Vec3;
  tieRodOuter: Vec3;
  /** Rise of the wheel centre from ride height. */
  riseMm: number;
  riseRateMm: number;
  /** Rise of the wheel centre per mm of rack, the lower arm held. */
  riseRackRate: number;
  /** Of upper arm and kingpin: +-1 where the two stand in line. See CircleSphere. */
  upperCosine: number;
  upperCosineRate: number;
  /** Of tie rod and steering arm, the same. */
  tieRodCosine: number;
  tieRodCosineRate: number;
  /** Per mm of rack, the lower arm held. */
  tieRodCosineRackRate: number;
}

const STILL: Vec3 = [0, 0, 0];

/**
 * Lower joint on its circle; upper joint where its circle meets the sphere of the kingpin's length about the lower one;
 * tie-rod end where its circle about the kingpin meets the sphere of the tie rod's length about the inner end. Always
 * on the branch of ride height; undefined where a member does not reach.
 */
export function assemble(m: Mechanism, lowerArmRad: number, rackMm: number): Assembly | undefined {
  const lowerJoint = jointAt(m.lower, lowerArmRad);
  const upper = meetCircleSphere(m.upper, lowerJoint, m.kingpinLengthMm, m.upperBranch);
  const upperJoint = upper.point;
  if (upperJoint === undefined) return undefined;
  const kingpin = kingpinAt(m, lowerJoint, upperJoint);
  const steeringCircle: Circle = {
    centre: addScaled(lowerJoint, kingpin, m.steeringArm.alongMm),
    axis: kingpin,
    radius: m.steeringArm.radiusMm,
  };
  const tieRodInner = tieRodInnerAt(m, rackMm);
  const tieRod = meetCircleSphere(steeringCircle, tieRodInner, m.tieRodLengthMm, m.tieRodBranch);
  const tieRodOuter = tieRod.point;
  if (tieRodOuter === undefined) return undefined;

  const lowerRate = velocityOnArm(m.lower, lowerJoint);
  // The kingpin keeps its length: both joints move alike along it.
  const upperTurn = velocityOnArm(m.upper, upperJoint);
  const upperRate = scale(upperTurn, dot(kingpin, lowerRate) / dot(kingpin, upperTurn));
  const kingpinRate = scale(sub(upperRate, lowerRate), 1 / m.kingpinLengthMm);
  const centreRate = addScaled(lowerRate, kingpinRate, m.steeringArm.alongMm);
  // The upright turns with the kingpin, and about it by as much as keeps the tie rod's length.
  const tilt = cross(kingpin, kingpinRate);
  const toOuter = sub(tieRodOuter, lowerJoint);
  const rod = sub(tieRodOuter, tieRodInner);
  const withoutSpin = add(lowerRate, cross(tilt, toOuter));
  const perSpin = dot(rod, cross(kingpin, toOuter));
  const spin = -dot(rod, withoutSpin) / perSpin;
  const turn = addScaled(tilt, kingpin, spin);

  const z = scale(cross(kingpin, toOuter), 1 / m.steeringArm.radiusMm);
  const y = cross(z, kingpin);
  const [a, b, c] = m.wheelCentreInUpright;
  const toWheel = addScaled(addScaled(scale(kingpin, a), y, b), z, c);
  const rackSpin = dot(rod, m.rackDirection) / perSpin;
  const wheelRate = lowerRate[2] + turn[0] * toWheel[1] - turn[1] * toWheel[0];
  return {
    lowerArmRad,
    rackMm,
    lowerJoint,
    upperJoint,
    kingpin,
    tieRodOuter,
    riseMm: lowerJoint[2] + toWheel[2] - m.hardpoints.wheelCentre[2],
    riseRateMm: wheelRate,
    riseRackRate: rackSpin * (kingpin[0] * toWheel[1] - kingpin[1] * toWheel[0]),
    upperCosine: upper.cosine,
    upperCosineRate: cosineRate(m.upper, lowerJoint, upper.cosine, lowerRate, STILL, STILL),
    tieRodCosine: tieRod.cosine,
    tieRodCosineRate: cosineRate(steeringCircle, tieRodInner, tieRod.cosine, STILL, centreRate, kingpinRate),
    tieRodCosineRackRate: cosineRate(
      steeringCircle,
      tieRodInner,
      tieRod.cosine,
      m.rackDirection,
      STILL,
      STILL,
    ),
  };
}
