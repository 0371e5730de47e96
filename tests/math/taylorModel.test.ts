import { describe, expect, it } from 'vitest';
import {
  add,
  addScaled,
  alongX,
  alongY,
  constant,
  cosSin,
  halfOf,
  magnitude,
  mul,
  REMAINDER,
  range,
  reciprocal,
  scale,
  sqrt,
  sub,
  type TaylorModel,
  widened,
} from '../../src/math/taylorModel.ts';
import { between, mulberry32 } from '../oracles/random.ts';

const SEED = 20261126;
const CASES = 2000;

/** Powers of x and y in the order of the coefficients. */
const POWERS = [0, 1, 2, 3, 4].flatMap((n) => Array.from({ length: n + 1 }, (_, k) => [n - k, k]));
const polynomial = (model: TaylorModel, x: number, y: number): number =>
  POWERS.reduce((sum, [i, j], k) => sum + model[k] * x ** i * y ** j, 0);

/** A function and its Taylor model. */
interface Modelled {
  model: TaylorModel;
  at: (x: number, y: number) => number;
}

/**
 * A random closed form from the operations of the mechanism. Arguments of roots and quotients stay valid over the
 * cell.
 */
function randomForm(random: () => number): Modelled {
  const half = 10 ** between(random, -4, -0.7);
  const [u, v] = [between(random, -2, 2), between(random, -2, 2)];
  const forms: Modelled[] = [
    { model: alongX(u, half), at: (x) => u + half * x },
    { model: alongY(v, half), at: (_, y) => v + half * y },
  ];
  for (let step = 0; step < 8; step++) {
    const a = forms[Math.floor(random() * forms.length)];
    const b = forms[Math.floor(random() * forms.length)];
    const s = between(random, -2, 2);
    const square = mul(a.model, a.model);
    const choices: (() => Modelled)[] = [
      () => ({ model: add(a.model, b.model), at: (x, y) => a.at(x, y) + b.at(x, y) }),
      () => ({ model: sub(a.model, b.model), at: (x, y) => a.at(x, y) - b.at(x, y) }),
      () => ({ model: mul(a.model, b.model), at: (x, y) => a.at(x, y) * b.at(x, y) }),
      () => ({ model: addScaled(a.model, b.model, s), at: (x, y) => a.at(x, y) + s * b.at(x, y) }),
      () => ({ model: scale(a.model, s), at: (x, y) => s * a.at(x, y) }),
      () => ({ model: cosSin(a.model).cos, at: (x, y) => Math.cos(a.at(x, y)) }),
      () => ({ model: cosSin(a.model).sin, at: (x, y) => Math.sin(a.at(x, y)) }),
      () => ({ model: sqrt(add(square, constant(0.7))), at: (x, y) => Math.sqrt(a.at(x, y) ** 2 + 0.7) }),
      () => ({ model: reciprocal(add(square, constant(0.7))), at: (x, y) => 1 / (a.at(x, y) ** 2 + 0.7) }),
    ];
    forms.push(choices[Math.floor(random() * choices.length)]());
  }
  return forms[forms.length - 1];
}

describe('Taylor models', () => {
  it('enclose the function over the whole cell: random closed forms', () => {
    const random = mulberry32(SEED);
    for (let k = 0; k < CASES; k++) {
      const { model, at } = randomForm(random);
      const { low, high } = range(model);
      for (let sample = 0; sample < 12; sample++) {
        // Clamping gives corners and edges of the cell as well as its inside.
        const [x, y] = [between(random, -1.5, 1.5), between(random, -1.5, 1.5)].map((t) =>
          Math.max(-1, Math.min(1, t)),
        );
        const value = at(x, y);
        // The test's own values are computed in Float64.
        const rounding = 1e-14 * (1 + magnitude(model));
        const where = `case ${k} at ${x}, ${y} (seed ${SEED})`;
        expect(Math.abs(value - polynomial(model, x, y)), where).toBeLessThanOrEqual(
          model[REMAINDER] + rounding,
        );
        expect(value, where).toBeGreaterThanOrEqual(low - rounding);
        expect(value, where).toBeLessThanOrEqual(high + rounding);
        expect(Math.abs(value), where).toBeLessThanOrEqual(magnitude(model) + rounding);
      }
    }
  });

  it('have a remainder of fifth order: a thirty-second part for half the cell size', () => {
    const remainder = (half: number): number => {
      const [x, y] = [alongX(0.3, half), alongY(-0.4, half)];
      const { cos } = cosSin(add(x, y));
      return mul(cos, sqrt(reciprocal(add(constant(2), mul(x, y)))))[REMAINDER];
    };
    expect(remainder(0.1) / remainder(0.05)).toBeGreaterThan(30);
    expect(remainder(0.1) / remainder(0.05)).toBeLessThan(40);
  });

  it('are exact up to fourth order: (1 + x)(2 + y) = 2 + 2x + y + xy', () => {
    const product = mul(alongX(1, 1), alongY(2, 1));
    expect(product.slice(0, REMAINDER)).toEqual([2, 2, 1, 0, 1, ...Array(10).fill(0)]);
    expect(product[REMAINDER]).toBeLessThan(1e-13);
  });

  it('bound their own rounding: a constant product against exact integer arithmetic', () => {
    const random = mulberry32(SEED);
    for (let k = 0; k < 200; k++) {
      // Odd integers of 31 and 30 bits, so that their product is rounded to 53 bits.
      const a = 2 ** 30 + 2 * Math.floor(random() * 2 ** 29) + 1;
      const b = 2 ** 30 - 2 * Math.floor(random() * 2 ** 28) - 1;
      const product = mul(constant(a), constant(b));
      const [c, e] = [product[0], product[REMAINDER]];
      const exact = BigInt(a) * BigInt(b);
      const off = exact - BigInt(c);
      expect(Number(off < 0n ? -off : off), `case ${k} (seed ${SEED})`).toBeLessThanOrEqual(e);
      expect(e).toBeGreaterThan(0);
    }
  });

  it('are unbounded if a root or a quotient can be undefined', () => {
    for (const none of [
      reciprocal(alongX(0.5, 0.6)),
      reciprocal(alongX(-0.5, 0.5)),
      sqrt(alongY(0.5, 0.6)),
      sqrt(widened(constant(0.5), 0.5)),
      mul(reciprocal(alongX(0, 1)), constant(0)),
    ]) {
      const { low, high } = range(none);
      expect(Number.isFinite(low)).toBe(false);
      expect(Number.isFinite(high)).toBe(false);
    }
    expect(Number.isFinite(reciprocal(alongX(0.5, 0.4))[REMAINDER])).toBe(true);
  });

  it('keep the same polynomial over each half of the cell', () => {
    const random = mulberry32(SEED + 1);
    for (let n = 0; n < CASES; n++) {
      const { model, at } = randomForm(random);
      const along = random() < 0.5 ? 'x' : 'y';
      const side = random() < 0.5 ? -1 : 1;
      const half = halfOf(model, along, side);
      const [x, y] = [between(random, -1, 1), between(random, -1, 1)];
      const [wholeX, wholeY] = along === 'x' ? [(side + x) / 2, y] : [x, (side + y) / 2];
      const size = magnitude(model);
      expect(Math.abs(polynomial(half, x, y) - polynomial(model, wholeX, wholeY))).toBeLessThan(
        1e-14 * (1 + size),
      );
      expect(Math.abs(polynomial(half, x, y) - at(wholeX, wholeY))).toBeLessThanOrEqual(
        half[REMAINDER] + 1e-14 * (1 + size),
      );
      expect(half[REMAINDER]).toBeGreaterThanOrEqual(model[REMAINDER]);
    }
  });
});
