import { cos, sin } from './sine.ts';
/**
 * Taylor models of fourth order in two variables (K. Makino and M. Berz, "Taylor models and other validated
 * functional inclusion methods", International Journal of Pure and Applied Mathematics 4 (4), 2003; cited from
 * memory): a polynomial and a bound on its remainder. Plain intervals lose the correlation between terms, so they
 * grow with every step of a closed form. The remainder of a Taylor model is of fifth order in the size of the cell.
 * (Second order was tried: its remainder was up to a thousand times the true third-order terms, so cells had to be
 * that much smaller.)
 */

/**
 * The function `polynomial(x, y) + r`, |r| <= e, for -1 <= x, y <= 1. Coefficients of 1; x, y; x^2, xy, y^2; x^3, x^2
 * y, x y^2, y^3; x^4, x^3 y, x^2 y^2, x y^3, y^4; then e. If e is Infinity or NaN, nothing is known of the function:
 * a root or a quotient in it is undefined somewhere in the cell.
 */
export type TaylorModel = readonly [
  c: number,
  x: number,
  y: number,
  xx: number,
  xy: number,
  yy: number,
  xxx: number,
  xxy: number,
  xyy: number,
  yyy: number,
  xxxx: number,
  xxxy: number,
  xxyy: number,
  xyyy: number,
  yyyy: number,
  e: number,
];
/** Index of e. */
export const REMAINDER = 15;

/**
 * Rounding allowance of each step, as a share of the absolute values involved: 16 units of rounding (2^-53). Each
 * coefficient below sums at most nine terms of at most two roundings each. Sine, cosine and Math.sqrt are correct to
 * one unit in the last place.
 */
const EPS = 2 ** -49;
/** Raises a bound, or a sum of absolute values, safely above its own rounding. */
const UP = 1 + 16 * EPS;

export const constant = (c: number): TaylorModel => [c, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0];
/** `middle + half x`, or `middle + half y`. */
export const alongX = (middle: number, half: number): TaylorModel => [
  middle,
  half,
  0,
  0,
  0,
  0,
  0,
  0,
  0,
  0,
  0,
  0,
  0,
  0,
  0,
  0,
];
export const alongY = (middle: number, half: number): TaylorModel => [
  middle,
  0,
  half,
  0,
  0,
  0,
  0,
  0,
  0,
  0,
  0,
  0,
  0,
  0,
  0,
  0,
];

const linear = (a: TaylorModel): number => Math.abs(a[1]) + Math.abs(a[2]);
const square = (a: TaylorModel): number => Math.abs(a[3]) + Math.abs(a[4]) + Math.abs(a[5]);
const cubic = (a: TaylorModel): number => Math.abs(a[6]) + Math.abs(a[7]) + Math.abs(a[8]) + Math.abs(a[9]);
const quartic = (a: TaylorModel): number =>
  Math.abs(a[10]) + Math.abs(a[11]) + Math.abs(a[12]) + Math.abs(a[13]) + Math.abs(a[14]);

/** Sum of the absolute values of all coefficients except the constant and e. */
const variation = (a: TaylorModel): number => linear(a) + square(a) + cubic(a) + quartic(a);

/**
 * Bound on everything except the constant, linear and square terms: the terms of third and fourth order and the
 * remainder.
 */
export const beyondSquares = (a: TaylorModel): number => (cubic(a) + quartic(a) + a[15]) * UP;

/** The same model with `by` added to its remainder bound. */
export const widened = (a: TaylorModel, by: number): TaylorModel => {
  const [c, x, y, xx, xy, yy, xxx, xxy, xyy, yyy, xxxx, xxxy, xxyy, xyyy, yyyy, e] = a;
  return [c, x, y, xx, xy, yy, xxx, xxy, xyy, yyy, xxxx, xxxy, xxyy, xyyy, yyyy, (e + by) * UP];
};

/** `a + s b`. */
export function addScaled(a: TaylorModel, b: TaylorModel, s: number): TaylorModel {
  const size = Math.abs(a[0]) + variation(a) + Math.abs(s) * (Math.abs(b[0]) + variation(b));
  return [
    a[0] + s * b[0],
    a[1] + s * b[1],
    a[2] + s * b[2],
    a[3] + s * b[3],
    a[4] + s * b[4],
    a[5] + s * b[5],
    a[6] + s * b[6],
    a[7] + s * b[7],
    a[8] + s * b[8],
    a[9] + s * b[9],
    a[10] + s * b[10],
    a[11] + s * b[11],
    a[12] + s * b[12],
    a[13] + s * b[13],
    a[14] + s * b[14],
    (a[15] + Math.abs(s) * b[15] + EPS * size) * UP,
  ];
}

const ZERO = constant(0);

export const add = (a: TaylorModel, b: TaylorModel): TaylorModel => addScaled(a, b, 1);
export const sub = (a: TaylorModel, b: TaylorModel): TaylorModel => addScaled(a, b, -1);
export const scale = (a: TaylorModel, s: number): TaylorModel => addScaled(ZERO, a, s);

/** The product. Terms above fourth order go into the remainder bound. */
export function mul(a: TaylorModel, b: TaylorModel): TaylorModel {
  const a1 = linear(a);
  const a2 = square(a);
  const a3 = cubic(a);
  const a4 = quartic(a);
  const b1 = linear(b);
  const b2 = square(b);
  const b3 = cubic(b);
  const b4 = quartic(b);
  const aSize = Math.abs(a[0]) + a1 + a2 + a3 + a4;
  const bSize = Math.abs(b[0]) + b1 + b2 + b3 + b4;
  const dropped = a1 * b4 + a2 * (b3 + b4) + a3 * (b2 + b3 + b4) + a4 * (b1 + b2 + b3 + b4);
  const e = dropped + a[15] * (bSize + b[15]) + b[15] * aSize + EPS * aSize * bSize;
  return [
    a[0] * b[0],
    a[0] * b[1] + a[1] * b[0],
    a[0] * b[2] + a[2] * b[0],
    a[0] * b[3] + a[1] * b[1] + a[3] * b[0],
    a[0] * b[4] + a[1] * b[2] + a[2] * b[1] + a[4] * b[0],
    a[0] * b[5] + a[2] * b[2] + a[5] * b[0],
    a[0] * b[6] + a[1] * b[3] + a[3] * b[1] + a[6] * b[0],
    a[0] * b[7] + a[1] * b[4] + a[2] * b[3] + a[3] * b[2] + a[4] * b[1] + a[7] * b[0],
    a[0] * b[8] + a[1] * b[5] + a[2] * b[4] + a[4] * b[2] + a[5] * b[1] + a[8] * b[0],
    a[0] * b[9] + a[2] * b[5] + a[5] * b[2] + a[9] * b[0],
    a[0] * b[10] + a[1] * b[6] + a[3] * b[3] + a[6] * b[1] + a[10] * b[0],
    a[0] * b[11] +
      a[1] * b[7] +
      a[2] * b[6] +
      a[3] * b[4] +
      a[4] * b[3] +
      a[6] * b[2] +
      a[7] * b[1] +
      a[11] * b[0],
    a[0] * b[12] +
      a[1] * b[8] +
      a[2] * b[7] +
      a[3] * b[5] +
      a[4] * b[4] +
      a[5] * b[3] +
      a[7] * b[2] +
      a[8] * b[1] +
      a[12] * b[0],
    a[0] * b[13] +
      a[1] * b[9] +
      a[2] * b[8] +
      a[4] * b[5] +
      a[5] * b[4] +
      a[8] * b[2] +
      a[9] * b[1] +
      a[13] * b[0],
    a[0] * b[14] + a[2] * b[9] + a[5] * b[5] + a[9] * b[2] + a[14] * b[0],
    e * UP,
  ];
}

/** Least and greatest value over the cell; NaN or infinite if nothing is known. */
export function range(a: TaylorModel): { low: number; high: number } {
  const rest =
    (linear(a) + Math.abs(a[4]) + cubic(a) + quartic(a) + a[15] + EPS * (Math.abs(a[0]) + variation(a))) * UP;
  return {
    low: a[0] + Math.min(0, a[3]) + Math.min(0, a[5]) - rest,
    high: a[0] + Math.max(0, a[3]) + Math.max(0, a[5]) + rest,
  };
}

/** `x`: coefficients with the same power of y, by rising power of x. `y`: the reverse. */
const LINES = {
  x: [[0, 1, 3, 6, 10], [2, 4, 7, 11], [5, 8, 12], [9, 13], [14]],
  y: [[0, 2, 5, 9, 14], [1, 4, 8, 13], [3, 7, 12], [6, 11], [10]],
} as const;
const BINOMIAL = [[1], [1, 1], [1, 2, 1], [1, 3, 3, 1], [1, 4, 6, 4, 1]] as const;

/**
 * The same function over one half of the cell, with that half scaled to -1 to 1: the lower (-1) or upper (1) half
 * along x or y.
 */
export function halfOf(a: TaylorModel, along: 'x' | 'y', side: -1 | 1): TaylorModel {
  const out = [...a] as unknown as { -readonly [K in keyof TaylorModel]: number };
  const middle = side / 2;
  for (const line of LINES[along]) {
    for (let k = 0; k < line.length; k++) {
      let sum = 0;
      for (let i = line.length - 1; i >= k; i--) sum = sum * middle + a[line[i]] * BINOMIAL[i][k];
      out[line[k]] = sum / 2 ** k;
    }
  }
  out[REMAINDER] = (a[REMAINDER] + EPS * (Math.abs(a[0]) + variation(a))) * UP;
  return out as unknown as TaylorModel;
}

/** Upper bound of the absolute value over the cell. */
export const magnitude = (a: TaylorModel): number => (Math.abs(a[0]) + variation(a) + a[15]) * UP;

/**
 * `f(a)` by Taylor's theorem about the constant of a. Arguments: f there, its derivatives there divided by 1!, 2!, 3!
 * and 4!, and a bound of the fifth derivative divided by 5! over the cell.
 */
function applyTaylor(
  a: TaylorModel,
  value: number,
  first: number,
  second: number,
  third: number,
  fourth: number,
  fifthMost: number,
): TaylorModel {
  const rest = addScaled(a, ONE, -a[0]);
  const size = variation(a) + a[15];
  let sum = addScaled(constant(third), rest, fourth);
  sum = addScaled(mul(sum, rest), ONE, second);
  sum = addScaled(mul(sum, rest), ONE, first);
  sum = addScaled(mul(sum, rest), ONE, value);
  // The derivatives are rounded too.
  const rounding =
    EPS *
    (Math.abs(value) +
      size *
        (Math.abs(first) + size * (Math.abs(second) + size * (Math.abs(third) + size * Math.abs(fourth)))));
  return widened(sum, fifthMost * size ** 5 * UP + rounding);
}

const ONE = constant(1);
const UNKNOWN = widened(ZERO, Number.POSITIVE_INFINITY);

/** `1 / a`; unknown if a can be 0. */
export function reciprocal(a: TaylorModel): TaylorModel {
  const c = a[0];
  const least = (Math.abs(c) - (variation(a) + a[15]) * UP) / UP;
  if (!(least > 0)) return UNKNOWN;
  const f = 1 / c;
  return applyTaylor(a, f, -f * f, f * f * f, -f * f * f * f, f * f * f * f * f, least ** -6);
}

/** The square root; unknown if a can be 0 or less. */
export function sqrt(a: TaylorModel): TaylorModel {
  const c = a[0];
  const least = (c - (variation(a) + a[15]) * UP) / UP;
  if (!(least > 0)) return UNKNOWN;
  const s = Math.sqrt(c);
  const f = 1 / c;
  const fifth = 7 / (256 * least ** 4 * Math.sqrt(least));
  return applyTaylor(
    a,
    s,
    (s * f) / 2,
    (-s * f * f) / 8,
    (s * f * f * f) / 16,
    (-5 * s * f * f * f * f) / 128,
    fifth,
  );
}

/** Cosine and sine of an angle in radians. */
export function cosSin(a: TaylorModel): { cos: TaylorModel; sin: TaylorModel } {
  const c = cos(a[0]);
  const s = sin(a[0]);
  return {
    cos: applyTaylor(a, c, -s, -c / 2, s / 6, c / 24, 1 / 120),
    sin: applyTaylor(a, s, c, -s / 2, -c / 6, s / 24, 1 / 120),
  };
}
