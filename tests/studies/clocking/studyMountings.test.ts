import { describe, expect, it } from 'vitest';
import { shortfallMm, unmetByAll, validFirst } from '../../../src/studies/clocking/studyMountings.ts';
import type { Unmet } from '../../../src/studies/clocking/unmet.ts';
import type { WantName } from '../../../src/studies/clocking/wants.ts';

const margin = (marginMm: number, errorMm = 0.1) => ({ marginMm, errorMm, limitedBy: 0 });

const unmet = (want: WantName, marginMm?: number): Unmet => ({
  wants: [want],
  contradiction: marginMm === undefined,
  best:
    marginMm === undefined
      ? undefined
      : { clockings: { caliperDeg: marginMm, hubDeg: 0 }, least: margin(marginMm) },
});

describe('requirements with several mountings', () => {
  it('are unmet if no mounting meets them, with the smallest shortfall', () => {
    const found = unmetByAll([
      [unmet('bleedWithinDeg', -5), unmet('hubRange', -1)],
      [unmet('caliperPlace', -2), unmet('bleedWithinDeg', -3)],
      [unmet('bleedWithinDeg')],
    ]);
    expect(found).toEqual([{ ...unmet('bleedWithinDeg', -3), mounting: 1 }]);
  });

  it('are a contradiction only if they are one in every mounting', () => {
    expect(unmetByAll([[unmet('caliperPlace')], [unmet('caliperPlace')]])).toEqual([
      { ...unmet('caliperPlace'), mounting: undefined },
    ]);
    expect(unmetByAll([[unmet('caliperPlace')], []])).toEqual([]);
  });

  it('are not merged if one mounting misses two together and the other only one', () => {
    const both: Unmet = { ...unmet('bleedWithinDeg', -1), wants: ['bleedWithinDeg', 'caliperPlace'] };
    expect(unmetByAll([[unmet('bleedWithinDeg', -1)], [both]])).toEqual([]);
  });
});

describe('the smallest unchanging margin', () => {
  it('has a shortfall of the required margin less the margin and its error', () => {
    expect(shortfallMm(margin(2))).toBe(0);
    expect(shortfallMm(margin(2), 3)).toBeCloseTo(1.1, 12);
    expect(shortfallMm(margin(0.05))).toBeCloseTo(0.05, 12);
    expect(shortfallMm(margin(Number.POSITIVE_INFINITY, Number.NaN), 3)).toBe(0);
    expect(shortfallMm(margin(Number.NaN, Number.NaN))).toBeGreaterThan(0);
  });

  it('moves the candidates of a mounting with a shortfall to the end, in the same order', () => {
    const unchanging = [-2, Number.NaN, 4, -1].map((mm) => margin(mm));
    const order = validFirst([0, 2, 1, 3, 2, 0], (mounting) => mounting, unchanging);
    expect(order).toEqual([2, 2, 1, 3, 0, 0]);
  });
});
