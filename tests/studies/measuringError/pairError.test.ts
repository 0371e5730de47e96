import { describe, expect, it } from 'vitest';
import type { TightSpot } from '../../../src/findings/findings.ts';
import type { Verified } from '../../../src/studies/measuringError/adverseCorner.ts';
import type { ErrorTerm } from '../../../src/studies/measuringError/errorTerms.ts';
import { measureAgain } from '../../../src/studies/measuringError/measureAgain.ts';
import { pairError } from '../../../src/studies/measuringError/pairError.ts';
import type { StudiedValue } from '../../../src/studies/sensitivity/studiedInputs.ts';

const valueNamed = (name: string): StudiedValue => ({
  field: { name, path: [name], kind: 'length' },
  input: {
    path: name,
    typed: 1,
    value: 1,
    quantity: 'length',
    plusMinus: { amount: 1, from: 'typed' },
    assumed: false,
  },
  problems: [],
});

const term = (value: StudiedValue, lossMm: number, changes: Partial<ErrorTerm> = {}): ErrorTerm => ({
  value,
  plusMinus: { amount: 1, from: 'typed' },
  end: 1,
  lossMm,
  slopeErrorMm: 0,
  isMeasured: true,
  ...changes,
});

const spot = (clearanceMm: number): TightSpot => ({
  travelMm: 0,
  steer: 0,
  roadWheelAngleDeg: 0,
  carriers: new Float64Array(),
  clearanceMm,
  errorMm: 0.1,
  pointA: [0, 0, 0],
  pointB: [0, 0, 0],
  marginMm: clearanceMm - 5,
});

const verifiedAt = (clearanceMm: number, state: 'clear' | 'tight' = 'clear'): Verified => ({
  kind: 'measured',
  state,
  worst: spot(clearanceMm),
});

/** A clear pair with a clearance of 10 mm and a margin of 5 mm. */
const errorOf = (terms: readonly ErrorTerm[], verified?: Verified) =>
  pairError(
    {
      finding: { pair: 0, state: 'clear', worst: spot(10), provenMm: 10, unknownSteps: 0 },
      worst: spot(10),
      effects: [],
    },
    terms,
    verified,
    5,
  );

const [a, b, c] = ['a', 'b', 'c'].map(valueNamed);

describe('the worst case of a pair', () => {
  it('is that of the slopes, with their errors, if the changed corner differs by less than a tenth', () => {
    const terms = [term(a, 2, { slopeErrorMm: 0.1 }), term(b, 1)];
    expect(errorOf(terms, verifiedAt(7.1))).toMatchObject({
      linear: { worstMm: 3.1, slopeErrorMm: 0.1 },
      worstCaseMm: 3.1,
    });
    expect(errorOf(terms, verifiedAt(6.8)).worstCaseMm).toBeCloseTo(3.2, 12);
  });

  it('is that of the changed corner if they differ by more, in either direction', () => {
    const terms = [term(a, 3)];
    expect(errorOf(terms, verifiedAt(6))).toMatchObject({ worstCaseMm: 4, verifiedLossMm: 4 });
    expect(errorOf(terms, verifiedAt(8))).toMatchObject({ worstCaseMm: 2 });
    expect(errorOf(terms, verifiedAt(10.5))).toMatchObject({ worstCaseMm: 0, verifiedLossMm: -0.5 });
  });

  it('is that of the slopes if the changed corner cannot be built or measured', () => {
    const notBuilt: Verified = { kind: 'notBuilt', problems: [] };
    expect(errorOf([term(a, 3)], notBuilt)).toMatchObject({ worstCaseMm: 3, verifiedLossMm: undefined });
    expect(errorOf([term(a, 3)], { kind: 'unknown', why: '' })).toMatchObject({ worstCaseMm: 3 });
  });

  it('is not known if a slope is not measured, unless the changed corner shows it', () => {
    const oneSide = [term(a, 3, { isMeasured: false })];
    expect(errorOf(oneSide, { kind: 'notBuilt', problems: [] })).toMatchObject({
      worstCaseMm: undefined,
      isWithin: undefined,
    });
    expect(errorOf(oneSide, verifiedAt(7.1)).worstCaseMm).toBeCloseTo(2.9, 12);
    const noSide = [term(a, 3), term(b, 0, { end: 0, isMeasured: false })];
    expect(errorOf(noSide, verifiedAt(7))).toMatchObject({ worstCaseMm: undefined, isWithin: undefined });
  });
});

describe('a clear pair is within the measuring error', () => {
  it('if its margin is less than the worst case, even if that is known in part only', () => {
    expect(errorOf([term(a, 4.9)], verifiedAt(5.1)).isWithin).toBe(false);
    expect(errorOf([term(a, 5.1)], verifiedAt(4.9)).isWithin).toBe(true);
    expect(errorOf([term(a, 6), term(b, 0, { end: 0, isMeasured: false })]).isWithin).toBe(true);
  });

  it('if it is not clear in the changed corner', () => {
    expect(errorOf([term(a, 4.9)], verifiedAt(5.1, 'tight')).isWithin).toBe(true);
  });
});

describe('the values to measure again', () => {
  it('are as few as take half of the worst cases, added over the pairs', () => {
    const { totalMm, values } = measureAgain([
      errorOf([term(a, 3), term(b, 1)]),
      errorOf([term(c, 2), term(a, 1)]),
    ]);
    expect(totalMm).toBe(7);
    expect(values).toEqual([{ value: a, doubtMm: 4, pairs: 2 }]);
  });

  it('share the worst case of the changed corner as they share the sum of the losses', () => {
    const { totalMm, values } = measureAgain([errorOf([term(a, 3), term(b, 1)], verifiedAt(8))]);
    expect(totalMm).toBe(2);
    expect(values).toEqual([{ value: a, doubtMm: 1.5, pairs: 1 }]);
  });

  it('are at most ten, and none without a loss', () => {
    const many = Array.from({ length: 40 }, (_, k) => term(valueNamed(`v${k}`), 1));
    expect(measureAgain([errorOf(many)]).values).toHaveLength(10);
    expect(measureAgain([errorOf([term(a, 0)])])).toEqual({ totalMm: 0, values: [] });
  });
});
