/**
 * The closed form of `assemble` over a whole cell of travel and rack, in Taylor models: x of the models runs over the
 * cell's travel, y over its rack. What is enclosed is the branch that passes through the pose given at the cell's middle.
 */
import {
  addScaled,
  alongX,
  alongY,
  constant,
  cosSin,
  magnitude,
  mul,
  range,
  reciprocal,
  scale,
  sqrt,
  sub,
  type TaylorModel,
  widened,
} from '../math/taylorModel.ts';
import {
  addVec,
  combine,
  constantVec,
  crossVec,
  dotVec,
  mulVec,
  scaleVec,
  subVec,
  type TaylorVec,
} from '../math/taylorVec.ts';
import type { Vec3 } from '../math/vec.ts';
import type { Arm, Mechanism } from './linkage.ts';

/**
 * A cell of travel (rise of the wheel centre from ride height) and rack displacement, by middle and half width, mm. A half
 * width below 0 has y of the models run against the rack.
 */
export interface Cell {
  travelMm: number;
  travelHalfMm: number;
  rackMm: number;
  rackHalfMm: number;
}

/** `Assembly` over a cell. */
export interface AssemblyEnclosure {
  /** Turn of the lower arm from ride height. */
  lowerArm: { cos: TaylorModel; sin: TaylorModel };
  lowerJoint: TaylorVec;
  upperJoint: TaylorVec;
  /** Unit vectors of the upright's own frame: along the kingpin, toward the steering arm's end, square to both. */
  upright: readonly [TaylorVec, TaylorVec, TaylorVec];
  tieRodInner: TaylorVec;
  tieRodOuter: TaylorVec;
  riseMm: TaylorModel;
}

/** Where a circle meets a sphere, on the branch given; see `meetCircleSphere`. */
function meetOver(
  { centre, axis, radius }: { centre: TaylorVec; axis: TaylorVec; radius: number },
  sphereCentre: TaylorVec,
  sphereRadius: number,
  branch: number,
): TaylorVec {
  const toSphere = subVec(sphereCentre, centre);
  const along = dotVec(toSphere, axis);
  const across = subVec(toSphere, mulVec(axis, along));
  const acrossSq = dotVec(across, across);
  const perReachSq = reciprocal(acrossSq);
  const powers = addScaled(
    addScaled(dotVec(toSphere, toSphere), ONE, radius * radius),
    ONE,
    -sphereRadius * sphereRadius,
  );
  // In units of the reach: how far the meeting points lie toward the sphere's centre, and to either side of that.
  const ahead = scale(mul(powers, perReachSq), 0.5);
  const aside = sqrt(sub(scale(perReachSq, radius * radius), mul(ahead, ahead)));
  const toward = addVec(centre, mulVec(across, ahead));
  return addVec(toward, mulVec(crossVec(axis, across), scale(aside, branch)));
}

const ONE = constant(1);

function assembleOver(m: Mechanism, lowerArmRad: TaylorModel, rackMm: TaylorModel): AssemblyEnclosure {
  const turn = cosSin(lowerArmRad);
  const lowerJoint = onArm(m.lower, turn.cos, turn.sin);
  const upperCircle = { ...m.upper, centre: constantVec(m.upper.centre), axis: constantVec(m.upper.axis) };
  const upperJoint = meetOver(upperCircle, lowerJoint, m.kingpinLengthMm, m.upperBranch);
  const kingpin = scaleVec(subVec(upperJoint, lowerJoint), 1 / m.kingpinLengthMm);
  const steeringCircle = {
    centre: addVec(lowerJoint, scaleVec(kingpin, m.steeringArm.alongMm)),
    axis: kingpin,
    radius: m.steeringArm.radiusMm,
  };
  const tieRodInner = addVec(
    constantVec(m.hardpoints.tieRodInner),
    mulVec(constantVec(m.rackDirection), rackMm),
  );
  const tieRodOuter = meetOver(steeringCircle, tieRodInner, m.tieRodLengthMm, m.tieRodBranch);
  const z = scaleVec(crossVec(kingpin, subVec(tieRodOuter, lowerJoint)), 1 / m.steeringArm.radiusMm);
  const upright = [kingpin, crossVec(z, kingpin), z] as const;
  const wheelCentreZ = combine([kingpin[2], upright[1][2], z[2]], m.wheelCentreInUpright);
  const riseMm = addScaled(addScaled(lowerJoint[2], wheelCentreZ, 1), ONE, -m.hardpoints.wheelCentre[2]);
  return { lowerArm: turn, lowerJoint, upperJoint, upright, tieRodInner, tieRodOuter, riseMm };
}

/** A point of an arm's circle, by the cosine and sine of its turn from ride height. */
function onArm({ centre, u, v, radius }: Arm, cos: TaylorModel, sin: TaylorModel): TaylorVec {
  const out = addVec(mulVec(constantVec(u), cos), mulVec(constantVec(v), sin));
  return addVec(constantVec(centre), scaleVec(out, radius));
}

/** Rise of the wheel centre per radian of the lower arm, the rack held: as in `assemble`. */
function riseRateOver(m: Mechanism, at: AssemblyEnclosure): TaylorModel {
  const { lowerJoint, upperJoint, upright, tieRodInner, tieRodOuter } = at;
  const kingpin = upright[0];
  const turnOf = ({ axis, centre }: Arm, joint: TaylorVec) =>
    crossVec(constantVec(axis), subVec(joint, constantVec(centre)));
  const lowerRate = turnOf(m.lower, lowerJoint);
  const upperTurn = turnOf(m.upper, upperJoint);
  const upperRate = mulVec(
    upperTurn,
    mul(dotVec(kingpin, lowerRate), reciprocal(dotVec(kingpin, upperTurn))),
  );
  const tilt = crossVec(kingpin, scaleVec(subVec(upperRate, lowerRate), 1 / m.kingpinLengthMm));
  const toOuter = subVec(tieRodOuter, lowerJoint);
  const rod = subVec(tieRodOuter, tieRodInner);
  const withoutSpin = addVec(lowerRate, crossVec(tilt, toOuter));
  const spin = mul(dotVec(rod, withoutSpin), reciprocal(dotVec(rod, crossVec(kingpin, toOuter))));
  const turn = subVec(tilt, mulVec(kingpin, spin));
  const [a, b, c] = m.wheelCentreInUpright;
  const toWheel: TaylorVec = [0, 1, 2].map((k) =>
    combine([upright[0][k], upright[1][k], upright[2][k]], [a, b, c] as Vec3),
  ) as unknown as TaylorVec;
  return addScaled(lowerRate[2], sub(mul(turn[0], toWheel[1]), mul(turn[1], toWheel[0])), 1);
}

/** A power of two small against any range of the arm, at which the shape of the closed form at a pose is taken. */
const PROBE_RAD = 2 ** -10;
/** The angle is at first enclosed this much more widely than its residual asks for; the slope varies over a cell. */
const FIRST_GUESS = 1.25;
/** Rounding of an angle, rad: added so that a residual of 0 leaves room. */
const LEAST_BAND_RAD = 1e-13;
/** Each round of the inversion makes one more order right; of the four of a Taylor model the first is right at once. */
const INVERSION_ROUNDS = 3;

/**
 * The lower arm's angle as a polynomial in travel and rack, as good as its order allows, from the polynomial of travel
 * in `PROBE_RAD` of angle and in the rack. In plain numbers: no bound comes with it.
 */
function invert(shape: TaylorModel, middleArmRad: number, travelHalfMm: number): TaylorModel {
  const [, x, y, xx, xy, yy, xxx, xxy, xyy, yyy, xxxx, xxxy, xxyy, xyyy, yyyy] = shape;
  // Polynomials in y that multiply the powers of the angle.
  const byPower = [
    inY(0, y, yy, yyy, yyyy),
    inY(x, xy, xyy, xyyy, 0),
    inY(xx, xxy, xxyy, 0, 0),
    inY(xxx, xxxy, 0, 0, 0),
    inY(xxxx, 0, 0, 0, 0),
  ];
  const wanted = alongX(0, travelHalfMm);
  let turn = scale(addScaled(wanted, alongY(0, y), -1), 1 / x);
  for (let round = 0; round < INVERSION_ROUNDS; round++) {
    const rise = byPower.reduceRight((sum, polynomial) => addScaled(mul(sum, turn), polynomial, 1), NONE);
    turn = addScaled(turn, sub(rise, wanted), -1 / x);
  }
  return withoutRest(addScaled(scale(turn, PROBE_RAD), ONE, middleArmRad));
}

const NONE = constant(0);
const inY = (c: number, y: number, yy: number, yyy: number, yyyy: number): TaylorModel => [
  c,
  0,
  y,
  0,
  0,
  yy,
  0,
  0,
  0,
  yyy,
  0,
  0,
  0,
  0,
  yyyy,
  0,
];

/** The polynomial alone. */
function withoutRest(a: TaylorModel): TaylorModel {
  const [c, x, y, xx, xy, yy, xxx, xxy, xyy, yyy, xxxx, xxxy, xxyy, xyyy, yyyy] = a;
  return [c, x, y, xx, xy, yy, xxx, xxy, xyy, yyy, xxxx, xxxy, xxyy, xyyy, yyyy, 0];
}

/**
 * Encloses the assembly over a cell, given the lower arm's angle at its middle; undefined where it cannot be shown that
 * the branch runs on all over the cell.
 *
 * Travel is a function Z(angle, rack) that the closed form gives, so that the angle is an implicit function of the
 * cell's travel z and rack r. A polynomial p(z, r) that nearly solves Z = z is found in plain numbers. Over the cell
 * |Z(p, r) - z| <= f, by the model of Z at p. Then the model over the band of angles p +- e shows that both circles meet
 * their spheres there and |dZ/d(angle)| >= s > 0. With f <= e s the band holds, at each point of the cell, one root of
 * Z = z and only one (mean value theorem), which runs on through the cell (implicit function theorem) and is the given
 * one at its middle. So the model over the band encloses the branch.
 */
export function encloseAssembly(
  m: Mechanism,
  cell: Cell,
  middleArmRad: number,
): AssemblyEnclosure | undefined {
  const rack = alongY(cell.rackMm, cell.rackHalfMm);
  const shape = assembleOver(m, alongX(middleArmRad, PROBE_RAD), rack).riseMm;
  const angle = invert(shape, middleArmRad, cell.travelHalfMm);
  const travel = alongX(cell.travelMm, cell.travelHalfMm);
  const misfitMm = magnitude(sub(assembleOver(m, angle, rack).riseMm, travel));
  let bandRad = LEAST_BAND_RAD + FIRST_GUESS * misfitMm * Math.abs(PROBE_RAD / shape[1]);
  for (let attempt = 0; attempt < 2; attempt++) {
    if (!Number.isFinite(bandRad)) return undefined;
    const over = assembleOver(m, widened(angle, bandRad), rack);
    const rate = range(scale(riseRateOver(m, over), m.bumpSense));
    if (!(rate.low > 0)) return undefined;
    if (misfitMm <= bandRad * rate.low * (1 - 1e-15)) return over;
    bandRad = LEAST_BAND_RAD + (FIRST_GUESS * misfitMm) / rate.low;
  }
  return undefined;
}
