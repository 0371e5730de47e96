/**
 * Taylor models of second order in two variables (K. Makino and M. Berz, "Taylor models and other validated functional
 * inclusion methods", International Journal of Pure and Applied Mathematics 4 (4), 2003; cited from memory): a quadratic
 * polynomial and a bound on what it leaves out. Plain intervals forget how numbers hang together and grow with every
 * step of a closed form; a Taylor model leaves out only what is of third order in the size of the cell.
 */

/**
 * The function `c + cx x + cy y + cxx x^2 + cxy x y + cyy y^2 + r`, |r| <= e, for -1 <= x, y <= 1, as
 * `[c, cx, cy, cxx, cxy, cyy, e]`. Where e is Infinity or NaN nothing is known of the function: it came of a root or a
 * quotient that does not exist all over the cell.
 */
export type TaylorModel = readonly [number, number, number, number, number, number, number];

/**
 * Share of the absolute values involved that is added for rounding at each step: 8 units of rounding (2^-53). No
 * coefficient below is the sum of more than six terms of at most two roundings each, and the sum of the bounds e gathers
 * far less. Math.sin, cos and sqrt of V8 are right to one unit in the last place.
 */
const EPS = 2 ** -50;
/** Takes a bound, or a sum of absolute values, safely above its own rounding. */
const UP = 1 + 16 * EPS;

export const constant = (c: number): TaylorModel => [c, 0, 0, 0, 0, 0, 0];

/** `middle + half x`, or `middle + half y`. */
export const alongX = (middle: number, half: number): TaylorModel => [middle, half, 0, 0, 0, 0, 0];
export const alongY = (middle: number, half: number): TaylorModel => [middle, 0, half, 0, 0, 0, 0];

/** Sum of absolute values of all coefficients but the constant, without e. */
const swing = (a: TaylorModel): number =>
  Math.abs(a[1]) + Math.abs(a[2]) + Math.abs(a[3]) + Math.abs(a[4]) + Math.abs(a[5]);

/** The same with a further bound on what is left out. */
export const widened = (a: TaylorModel, by: number): TaylorModel => [
  a[0],
  a[1],
  a[2],
  a[3],
  a[4],
  a[5],
  (a[6] + by) * UP,
];

/** `a + s b`. */
export function addScaled(a: TaylorModel, b: TaylorModel, s: number): TaylorModel {
  const size = Math.abs(a[0]) + swing(a) + Math.abs(s) * (Math.abs(b[0]) + swing(b));
  return [
    a[0] + s * b[0],
    a[1] + s * b[1],
    a[2] + s * b[2],
    a[3] + s * b[3],
    a[4] + s * b[4],
    a[5] + s * b[5],
    (a[6] + Math.abs(s) * b[6] + EPS * size) * UP,
  ];
}

export const add = (a: TaylorModel, b: TaylorModel): TaylorModel => addScaled(a, b, 1);
export const sub = (a: TaylorModel, b: TaylorModel): TaylorModel => addScaled(a, b, -1);
export const scale = (a: TaylorModel, s: number): TaylorModel => addScaled(ZERO, a, s);

const ZERO = constant(0);

/** The product; what is of third and fourth order goes into the bound. */
export function mul(a: TaylorModel, b: TaylorModel): TaylorModel {
  const [ac, ax, ay, axx, axy, ayy, ae] = a;
  const [bc, bx, by, bxx, bxy, byy, be] = b;
  const aLinear = Math.abs(ax) + Math.abs(ay);
  const bLinear = Math.abs(bx) + Math.abs(by);
  const aSquare = Math.abs(axx) + Math.abs(axy) + Math.abs(ayy);
  const bSquare = Math.abs(bxx) + Math.abs(bxy) + Math.abs(byy);
  const aSize = Math.abs(ac) + aLinear + aSquare;
  const bSize = Math.abs(bc) + bLinear + bSquare;
  const dropped = aLinear * bSquare + aSquare * bLinear + aSquare * bSquare;
  return [
    ac * bc,
    ac * bx + ax * bc,
    ac * by + ay * bc,
    ac * bxx + axx * bc + ax * bx,
    ac * bxy + axy * bc + ax * by + ay * bx,
    ac * byy + ayy * bc + ay * by,
    (dropped + ae * (bSize + be) + be * aSize + EPS * aSize * bSize) * UP,
  ];
}

/** Least and greatest value over the cell; NaN or infinite where nothing is known. */
export function range(a: TaylorModel): { low: number; high: number } {
  const rest = (Math.abs(a[1]) + Math.abs(a[2]) + Math.abs(a[4]) + a[6]) * UP;
  const rounding = EPS * (Math.abs(a[0]) + swing(a));
  return {
    low: a[0] + Math.min(0, a[3]) + Math.min(0, a[5]) - rest - rounding,
    high: a[0] + Math.max(0, a[3]) + Math.max(0, a[5]) + rest + rounding,
  };
}

/** Bound of the absolute value over the cell. */
export const magnitude = (a: TaylorModel): number => (Math.abs(a[0]) + swing(a) + a[6]) * UP;

/**
 * `f(a)` by Taylor's theorem about the constant of a: `value`, `slope` and half the second derivative there, and a bound
 * on a sixth of the third derivative over the cell.
 */
function applied(
  a: TaylorModel,
  value: number,
  slope: number,
  halfSecond: number,
  sixthThird: number,
): TaylorModel {
  const rest: TaylorModel = [0, a[1], a[2], a[3], a[4], a[5], a[6]];
  const size = swing(a) + a[6];
  const sum = addScaled(addScaled(constant(value), rest, slope), mul(rest, rest), halfSecond);
  // Slope, value and second derivative are themselves rounded.
  const rounding = EPS * (Math.abs(value) + Math.abs(slope) * size + Math.abs(halfSecond) * size * size);
  return widened(sum, sixthThird * size * size * size * UP + rounding);
}

const UNKNOWN: TaylorModel = [0, 0, 0, 0, 0, 0, Number.POSITIVE_INFINITY];

/** `1 / a`; nothing is known of it where a may be 0. */
export function reciprocal(a: TaylorModel): TaylorModel {
  const c = a[0];
  const least = (Math.abs(c) - (swing(a) + a[6]) * UP) / UP;
  if (!(least > 0)) return UNKNOWN;
  return applied(a, 1 / c, -1 / (c * c), 1 / (c * c * c), 1 / (least * least * least * least));
}

/** The square root; nothing is known of it where a may be 0 or less. */
export function sqrt(a: TaylorModel): TaylorModel {
  const c = a[0];
  const least = (c - (swing(a) + a[6]) * UP) / UP;
  if (!(least > 0)) return UNKNOWN;
  const s = Math.sqrt(c);
  return applied(a, s, 1 / (2 * s), -1 / (8 * c * s), 1 / (16 * least * least * Math.sqrt(least)));
}

/** Cosine and sine of an angle in radians. */
export function cosSin(a: TaylorModel): { cos: TaylorModel; sin: TaylorModel } {
  const c = Math.cos(a[0]);
  const s = Math.sin(a[0]);
  return { cos: applied(a, c, -s, -c / 2, 1 / 6), sin: applied(a, s, c, -s / 2, 1 / 6) };
}
