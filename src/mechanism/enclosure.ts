/**
 * The closed form of a mechanism over a whole cell of travel and steering input, in Taylor models. x of the models runs
 * over the cell's travel, y over its steering input. The enclosed branch is the one through the given pose at the
 * cell's middle.
 */
import type { Posed } from '../layouts/kinematics.ts';
import { layoutOf } from '../layouts/layoutOf.ts';
import {
  addScaled,
  alongX,
  alongY,
  constant,
  magnitude,
  mul,
  range,
  scale,
  sub,
  type TaylorModel,
  widened,
} from '../math/taylorModel.ts';
import { TAYLOR_MODELS, type TaylorKind } from '../math/taylorModels.ts';
import type { Mechanism } from './prepared.ts';

/**
 * A cell of travel (rise of the wheel centre from ride height, mm) and steering input (mm or degrees): middle and half
 * width. With a negative half width, y of the models runs against the input.
 */
export interface Cell {
  travelMm: number;
  travelHalfMm: number;
  input: number;
  inputHalf: number;
}

const ONE = constant(1);

type Enclosed = Pick<Mechanism, 'layout' | 'linkage' | 'bumpSense'>;

/** The mechanism over models of arm and input. Where a member does not reach, the models are unknown. */
function poseOver(m: Enclosed, armRad: TaylorModel, input: TaylorModel): Posed<TaylorKind> {
  const posed = layoutOf(m).kinematics.pose<TaylorKind>(TAYLOR_MODELS, m.linkage, armRad, input);
  if (posed === undefined) throw new Error('an enclosure of a mechanism must be unknown, not undefined');
  return posed;
}

/** Angle step at which the closed form is expanded about a pose: a power of two, small against any range of the arm. */
const PROBE_RAD = 2 ** -10;
/** The first band of angles is this much wider than the residual requires, because the slope varies over a cell. */
const FIRST_GUESS = 1.25;
/** Rounding of an angle, rad. Added so that the band is not empty if the residual is 0. */
const LEAST_BAND_RAD = 1e-13;
/**
 * Each round of the inversion corrects one more order. Of the four orders of a Taylor model, the first is correct
 * from the start.
 */
const INVERSION_ROUNDS = 3;

/**
 * The arm's angle as a polynomial in travel and steering input, as accurate as its order allows. `shape` is the
 * polynomial of travel in the angle (unit `PROBE_RAD`) and the input. Computed in plain numbers, without a bound.
 */
function invert(shape: TaylorModel, middleArmRad: number, travelHalfMm: number): TaylorModel {
  const [, x, y, xx, xy, yy, xxx, xxy, xyy, yyy, xxxx, xxxy, xxyy, xyyy, yyyy] = shape;
  // Polynomials in y, the coefficients of the powers of the angle.
  const byPower = [
    inY(0, y, yy, yyy, yyyy),
    inY(x, xy, xyy, xyyy, 0),
    inY(xx, xxy, xxyy, 0, 0),
    inY(xxx, xxxy, 0, 0, 0),
    inY(xxxx, 0, 0, 0, 0),
  ];
  const target = alongX(0, travelHalfMm);
  let turn = scale(addScaled(target, alongY(0, y), -1), 1 / x);
  for (let round = 0; round < INVERSION_ROUNDS; round++) {
    const rise = byPower.reduceRight((sum, polynomial) => addScaled(mul(sum, turn), polynomial, 1), NONE);
    turn = addScaled(turn, sub(rise, target), -1 / x);
  }
  return withoutRemainder(addScaled(scale(turn, PROBE_RAD), ONE, middleArmRad));
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

/** The polynomial without its remainder. */
function withoutRemainder(a: TaylorModel): TaylorModel {
  const [c, x, y, xx, xy, yy, xxx, xxy, xyy, yyy, xxxx, xxxy, xxyy, xyyy, yyyy] = a;
  return [c, x, y, xx, xy, yy, xxx, xxy, xyy, yyy, xxxx, xxxy, xxyy, xyyy, yyyy, 0];
}

/**
 * Encloses the assembly over a cell, given the arm's angle at its middle. Undefined if the branch cannot be
 * proved to exist over the whole cell.
 *
 * Travel is a function Z(angle, input) in closed form, so the angle is an implicit function of the cell's travel z and
 * input r. Plain numbers give a polynomial p(z, r) that nearly solves Z = z. The model of Z at p shows that
 * |Z(p, r) - z| <= f over the cell. The model over the band of angles p +- e shows that every member reaches and that |dZ/d(angle)| >= s > 0. If f <= e s, the band contains exactly one root of Z = z at each point of
 * the cell (mean value theorem). The roots form one continuous branch (implicit function theorem), which contains the
 * given root at the middle. So the model over the band encloses the branch.
 */
export function encloseAssembly(
  m: Enclosed,
  cell: Cell,
  middleArmRad: number,
): Posed<TaylorKind> | undefined {
  const { rates } = layoutOf(m).kinematics;
  const input = alongY(cell.input, cell.inputHalf);
  const shape = poseOver(m, alongX(middleArmRad, PROBE_RAD), input).rise;
  const angle = invert(shape, middleArmRad, cell.travelHalfMm);
  const travel = alongX(cell.travelMm, cell.travelHalfMm);
  const misfitMm = magnitude(sub(poseOver(m, angle, input).rise, travel));
  let bandRad = LEAST_BAND_RAD + FIRST_GUESS * misfitMm * Math.abs(PROBE_RAD / shape[1]);
  for (let attempt = 0; attempt < 2; attempt++) {
    if (!Number.isFinite(bandRad)) return undefined;
    const over = poseOver(m, widened(angle, bandRad), input);
    const rate = range(scale(rates(TAYLOR_MODELS, m.linkage, over).rise, m.bumpSense));
    if (!(rate.low > 0)) return undefined;
    if (misfitMm <= bandRad * rate.low * (1 - 1e-15)) return over;
    bandRad = LEAST_BAND_RAD + (FIRST_GUESS * misfitMm) / rate.low;
  }
  return undefined;
}
