import { describe, expect, it } from 'vitest';
import { cos, sin } from '../../src/math/sine.ts';
import { mulberry32 } from '../oracles/random.ts';

/** Difference of two numbers in units in the last place of `b`. */
const ulps = (a: number, b: number): number => {
  const unit = 2 ** Math.max(-1074, Math.floor(Math.log2(Math.abs(b) || Number.MIN_VALUE)) - 52);
  return Math.abs(a - b) / unit;
};

describe('sine and cosine', () => {
  it.each([1, 10, 6283])(
    'agree with Math.sin and Math.cos within 2 units in the last place, up to %i rad',
    (reach) => {
      const seed = 20261125;
      const random = mulberry32(seed);
      let worst = 0;
      for (let i = 0; i < 100_000; i++) {
        const angle = (2 * random() - 1) * reach;
        worst = Math.max(worst, ulps(sin(angle), Math.sin(angle)), ulps(cos(angle), Math.cos(angle)));
      }
      expect(worst, `seed ${seed}`).toBeLessThanOrEqual(2);
    },
  );

  // Closed forms: sin 30 deg = 1/2, sin 45 deg = sqrt(1/2), cos 36 deg = (1 + sqrt 5) / 4.
  it('agree with closed forms', () => {
    expect(ulps(sin(Math.PI / 6), 0.5)).toBeLessThanOrEqual(1);
    expect(ulps(sin(Math.PI / 4), Math.SQRT1_2)).toBeLessThanOrEqual(1);
    expect(ulps(cos(Math.PI / 5), (1 + Math.sqrt(5)) / 4)).toBeLessThanOrEqual(1);
    expect([sin(0), cos(0), sin(Math.PI / 2), cos(Math.PI)]).toEqual([0, 1, 1, -1]);
    // Half of pi as a double is too small by 6.123233995736766e-17 (from pi to 36 places).
    expect(cos(Math.PI / 2)).toBeCloseTo(6.123233995736766e-17, 30);
    expect(cos(Math.PI / 2)).toBeGreaterThan(0);
  });

  it('are odd and even, and NaN for NaN and infinity', () => {
    for (const angle of [1e-300, 0.3, 1.2, 2.9, 77]) {
      expect(sin(-angle)).toBe(-sin(angle));
      expect(cos(-angle)).toBe(cos(angle));
    }
    expect(Object.is(sin(-0), -0)).toBe(true);
    for (const none of [Number.NaN, Number.POSITIVE_INFINITY]) {
      expect(sin(none)).toBeNaN();
      expect(cos(none)).toBeNaN();
    }
  });
});
