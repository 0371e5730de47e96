import { describe, expect, it } from 'vitest';
import type { PlusMinus } from '../../../src/design/design.ts';
import { errorTerms, rootSumSquare, worstCaseSum } from '../../../src/studies/measuringError/errorTerms.ts';
import type { Rate } from '../../../src/studies/sensitivity/rate.ts';
import type { Effect } from '../../../src/studies/sensitivity/sensitivity.ts';

const slope = (perUnit: number, error = 0) => ({ perUnit, error });
const oneSlope = (perUnit: number, error = 0): Rate => ({
  below: slope(perUnit, error),
  above: slope(perUnit, error),
  both: slope(perUnit, error),
});

const effect = (name: string, rate: Rate, amount?: number): Effect => {
  const plusMinus: PlusMinus | undefined = amount === undefined ? undefined : { amount, from: 'typed' };
  return {
    value: {
      field: { name, path: [name], kind: 'length' },
      input: { path: name, typed: 1, value: 1, quantity: 'length', plusMinus, assumed: false },
      problems: [],
    },
    rate,
  };
};

/**
 * The motor of Dimensioning and Tolerancing Handbook (McGraw-Hill), chapter 9, inch: the gap is a sum of dimensions, each
 * with slope 1 or -1. Values as in the tests of phcreery/dimstack, commit 2da18ff3, tests/test_McGrawHill.py.
 */
describe('a stack of dimensions', () => {
  const stack = [
    { sign: -1, nominal: 0.375, plus: 0, minus: 0.031 },
    { sign: 1, nominal: 0.032, plus: 0.002, minus: 0.002 },
    { sign: 1, nominal: 0.06, plus: 0.003, minus: 0.003 },
    { sign: 1, nominal: 0.438, plus: 0, minus: 0.015 },
    { sign: 1, nominal: 0.12, plus: 0.005, minus: 0.005 },
    { sign: 1, nominal: 1.5, plus: 0.01, minus: 0.004 },
    { sign: 1, nominal: 0.12, plus: 0.005, minus: 0.005 },
    { sign: 1, nominal: 0.438, plus: 0, minus: 0.015 },
    { sign: 1, nominal: 0.45, plus: 0.007, minus: 0.007 },
    { sign: -1, nominal: 3.019, plus: 0.012, minus: 0 },
    { sign: 1, nominal: 0.3, plus: 0.03, minus: 0.03 },
  ];
  // An unequal tolerance belongs to the size of the part, and becomes a middle with an equal ±.
  const middle = stack.reduce(
    (sum, { sign, nominal, plus, minus }) => sum + sign * (nominal + (plus - minus) / 2),
    0,
  );
  const terms = errorTerms(
    stack.map(({ sign, plus, minus }, k) => effect(`size${k}`, oneSlope(sign), (plus + minus) / 2)),
  );
  const losses = terms.map(({ lossMm }) => lossMm);

  it('has the published middle, worst case and root sum square', () => {
    expect(middle).toBeCloseTo(0.0615, 10);
    expect(worstCaseSum(losses)).toBeCloseTo(0.0955, 10);
    expect(rootSumSquare(losses)).toBeCloseTo(0.03808, 5);
  });

  it('has each size at the end that closes the gap', () => {
    const endOf = (name: string) => terms.find(({ value }) => value.field.name === name)?.end;
    expect([endOf('size0'), endOf('size5'), endOf('size9')]).toEqual([1, -1, 1]);
  });
});

/** Standard uncertainties of JCGM 100:2008 (GUM), H.1, nm, as in GUM_H1.py of MSLNZ/GTC: combined 32 nm. */
it('the root sum square of the end gauge of GUM H.1 is 32 nm', () => {
  const combined = rootSumSquare([25, 9.7, 2.9, 16.6]);
  expect(combined).toBeCloseTo(31.67, 2);
  expect(Math.round(combined)).toBe(32);
});

describe('the term of a value', () => {
  const term = (rate: Rate, amount = 2) => errorTerms([effect('x', rate, amount)])[0];

  it('is the size of the slope times the ±, at the end that lessens the clearance', () => {
    expect(term(oneSlope(0.5, 0.25))).toMatchObject({
      end: -1,
      lossMm: 1,
      slopeErrorMm: 0.5,
      isMeasured: true,
    });
    expect(term(oneSlope(-0.5))).toMatchObject({ end: 1, lossMm: 1, slopeErrorMm: 0 });
  });

  it('takes the side of the larger loss if the sides differ', () => {
    const bent = (below: number, above: number): Rate => ({
      below: slope(below, 0.1),
      above: slope(above, 0.1),
      both: undefined,
    });
    expect(term(bent(1, -0.25))).toMatchObject({ end: -1, lossMm: 2 });
    expect(term(bent(0.25, -1))).toMatchObject({ end: 1, lossMm: 2 });
    expect(term(bent(0.25, 1))).toMatchObject({ end: -1, lossMm: 0.5 });
  });

  it('is 0 if the clearance grows on both sides, and its error may hide a loss', () => {
    const valley = (error: number): Rate => ({
      below: slope(-1, error),
      above: slope(1, error),
      both: undefined,
    });
    expect(term(valley(0.1))).toMatchObject({ end: 0, lossMm: 0, slopeErrorMm: 0, isMeasured: true });
    expect(term(valley(1.5))).toMatchObject({ end: 0, lossMm: 0, slopeErrorMm: 1 });
  });

  it('takes the slope of the other side if one is not measured, and marks that', () => {
    const oneSide = { below: undefined, above: slope(0.5), both: undefined };
    expect(term(oneSide)).toMatchObject({ end: -1, lossMm: 1, isMeasured: false });
    const none = { below: undefined, above: undefined, both: undefined };
    expect(term(none)).toMatchObject({ end: 0, lossMm: 0, isMeasured: false });
  });

  it('is left out if the value has no ±', () => {
    expect(errorTerms([effect('x', oneSlope(1))])).toEqual([]);
  });
});
