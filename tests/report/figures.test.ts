import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { figuresIn } from '../../src/report/figures.ts';

const number = (text: string) => Number(text.replace('−', '-'));
const mm = fc.double({ min: -500, max: 500, noNaN: true });
const error = fc.double({ min: 0, max: 5, noNaN: true });
/** Allowance for Float64 rounding, mm. */
const NOISE_MM = 1e-7;

describe.each([
  ['mm', 1],
  ['in', 25.4],
] as const)('figures in %s', (unit, perUnit) => {
  const figures = figuresIn(unit);

  it('never show a larger clearance or a smaller error than was computed', () => {
    fc.assert(
      fc.property(mm, error, (clearance, bound) => {
        const [shown, shownError] = figures.withError(clearance, bound).split(' ± ').map(number);
        expect(shown * perUnit).toBeLessThanOrEqual(clearance + NOISE_MM);
        // Both ends of the true interval lie within the shown one.
        expect((shown - shownError) * perUnit).toBeLessThanOrEqual(clearance - bound + NOISE_MM);
        expect((shown + shownError) * perUnit).toBeGreaterThanOrEqual(clearance + bound - NOISE_MM);
        expect(number(figures.least(clearance))).toBe(shown);
        expect(number(figures.bound(bound)) * perUnit).toBeGreaterThanOrEqual(bound - NOISE_MM);
      }),
      { seed: 20310506 },
    );
  });
});

describe('figures of a depth without an upper bound', () => {
  const open = Number.POSITIVE_INFINITY;
  it('give a lower bound on the depth, rounded down, without an error bar', () => {
    const { withError, withErrorAndUnit } = figuresIn('mm');
    expect(withError(-19.2749, open)).toBe('at least 19.27 deep');
    expect(withErrorAndUnit(-19.2749, open)).toBe('at least 19.27 mm deep');
    expect(figuresIn('in').withErrorAndUnit(-25.4, open)).toBe('at least 1.000 in deep');
    expect(withErrorAndUnit(-3, 0.1)).toBe('−3.00 ± 0.10 mm');
  });
  it('are "depth not known" if nothing is proven', () => {
    for (const mm of [0, -0.004]) expect(figuresIn('mm').withErrorAndUnit(mm, open)).toBe('depth not known');
  });
  it('give an upper bound on a margin, rounded up', () => {
    const { margin, signedWithError } = figuresIn('mm');
    expect(margin(-24.309, open)).toBe('at most −24.30');
    expect(signedWithError(-24.309, open)).toBe('at most −24.30');
    expect(margin(-24.301, 0.1)).toBe('−24.31');
  });
});

describe('figures', () => {
  it('are exact if the value is', () => {
    const { least, withError, signedPlace, givenWithUnit } = figuresIn('mm');
    expect(least(3.1)).toBe('3.10');
    expect(least(0.1 + 0.2)).toBe('0.30');
    expect(least(-1.801)).toBe('−1.81');
    expect(withError(3.1, 0.1)).toBe('3.10 ± 0.10');
    expect(signedPlace(-0.01)).toBe('0.0');
    expect(signedPlace(12)).toBe('+12.0');
    expect(givenWithUnit(6.35)).toBe('6.35 mm');
    expect(givenWithUnit(3.175)).toBe('3.175 mm');
    expect(givenWithUnit(5)).toBe('5.00 mm');
    // The inch is 25.4 mm exactly (international yard and pound agreement, 1959).
    expect(figuresIn('in').givenWithUnit(6.35)).toBe('0.250 in');
  });
});
