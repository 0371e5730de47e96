import { describe, expect, it } from 'vitest';
import { stepPicture } from '../../../src/app/map/stepPicture.ts';
import { CLEARANCE_KINDS } from '../../../src/clearance/clearance.ts';
import { doubleWishboneRack } from '../../../src/layouts/doubleWishboneRack/layout.ts';
import { levels } from '../../../src/report/curves/levels.ts';
import {
  bandPath,
  chartRange,
  labelEnd,
  lesserOfTwo,
  lineOfSteer,
  lineOfTravel,
  linePath,
  seriesOf,
} from '../../../src/report/curves/series.ts';
import { DEFAULT_SETTINGS, POSE_STATES, type SweepResult } from '../../../src/sweep/result.ts';
import { carrierNumbers, emptyRow } from '../../../src/sweep/row.ts';

const CARRIERS = Object.keys(doubleWishboneRack.carriers);

/** Two pairs at two travels (rows) by three steers (columns), errors of 0.1 mm, targets of 5 mm. */
function result(): SweepResult {
  const row = emptyRow(2, 6, CARRIERS);
  row.poseState.fill(POSE_STATES.indexOf('solved'));
  row.poseState[2] = POSE_STATES.indexOf('unreachable');
  row.poseState[5] = POSE_STATES.indexOf('pending');
  row.clearanceMm.set([
    20,
    9,
    Number.NaN,
    4,
    -1,
    Number.NaN,
    Infinity,
    Infinity,
    Number.NaN,
    Infinity,
    Number.NaN,
    Number.NaN,
  ]);
  row.errorMm.set([
    0.1,
    0.1,
    Number.NaN,
    0.1,
    0.1,
    Number.NaN,
    Number.NaN,
    Number.NaN,
    Number.NaN,
    Number.NaN,
    Number.NaN,
    Number.NaN,
  ]);
  row.state.fill(CLEARANCE_KINDS.indexOf('separated'));
  const pair = { a: 0, moves: true, zones: [], targetMm: 5, targetOrigin: 'test', allowanceMm: 0 };
  return {
    designHash: '',
    settings: DEFAULT_SETTINGS,
    travelMm: Float64Array.of(-50, 60),
    steer: Float64Array.of(-1, 0, 1),
    pairs: [
      { ...pair, b: 1 },
      { ...pair, b: 2 },
    ],
    unchecked: [],
    ...row,
    carriers: new Float64Array(6 * carrierNumbers(CARRIERS)),
  };
}

describe('series of a chart', () => {
  it('follow one row or column of the sweep: NaN if unreachable, the search limit if far', () => {
    const swept = result();
    const row = lineOfSteer(swept, 0);
    expect(seriesOf(swept, 0, row)).toEqual({
      pair: 0,
      clearanceMm: [20, 9, Number.NaN],
      errorMm: [0.1, 0.1, Number.NaN],
    });
    expect(row.places[2]).toEqual({ travelMm: -50, steer: 1 });
    const column = lineOfTravel(swept, 0);
    expect(seriesOf(swept, 0, column).clearanceMm).toEqual([20, 4]);
    expect(column.places).toEqual([
      { travelMm: -50, steer: -1 },
      { travelMm: 60, steer: -1 },
    ]);
    expect(seriesOf(swept, 1, row).clearanceMm).toEqual([60, 60, Number.NaN]);
  });

  it('have a band between known steps, down to the proved bound less the error', () => {
    const series = { pair: 0, clearanceMm: [20, 9, Number.NaN, 5, 6], errorMm: [0.1, 0.2, Number.NaN, 0, 0] };
    expect(lesserOfTwo(series)).toEqual([9, Number.NaN, Number.NaN, 5]);
    const path = bandPath(
      series,
      [8, Number.NEGATIVE_INFINITY, Number.NEGATIVE_INFINITY, 4.5],
      (i) => i,
      (v) => v,
    );
    expect(path).toBe('M0.0 20.0L1.0 9.0V7.8H0.0ZM3.0 5.0L4.0 6.0V4.5H3.0Z');
    expect(
      bandPath(
        series,
        [],
        (i) => i,
        (v) => v,
      ),
    ).toBe('');
  });

  it('are interrupted at unknown steps', () => {
    const path = linePath(
      [1, 2, Number.NaN, 3, 4],
      (i) => i,
      (v) => v,
    );
    expect(path).toBe('M0.0 1.0L1.0 2.0M3.0 3.0L4.0 4.0');
  });

  it('leave room for the label of a target at the end where the nearest of them is further from it', () => {
    // 5 and 2 mm from it at the first end, 3 and 9 mm at the last: the nearer of each counts.
    const two = [
      [0, 8],
      [7, 14],
    ];
    expect(labelEnd(two, 5)).toBe('last');
    expect(labelEnd([two[0]], 5)).toBe('first');
    // Nothing is drawn at the first end.
    expect(labelEnd([[Number.NaN, 100]], 5)).toBe('first');
  });

  it('keep contact, target and every overlap in the range', () => {
    const { low, high } = chartRange(
      [{ pair: 0, clearanceMm: [-7, 200, Number.NaN], errorMm: [0.1, 0.1, Number.NaN] }],
      [5],
    );
    expect(low).toBeLessThan(-7);
    expect(high).toBeGreaterThan(5);
    expect(high).toBeLessThan(60);
    const still = chartRange([], []);
    expect(still.low).toBeLessThanOrEqual(0);
    expect(still.high).toBeGreaterThan(still.low);
  });

  it('have round levels that do not overlap', () => {
    for (const unit of ['mm', 'in'] as const) {
      const found = levels(-8.3, 31, 90, unit);
      expect(found.map(({ mm }) => mm)).toContain(0);
      const gapPx = ((found[1].mm - found[0].mm) * 90) / (31 + 8.3);
      expect(gapPx).toBeGreaterThanOrEqual(22 - 1e-9);
      expect(gapPx).toBeLessThan(22 * 2.5 + 1e-9);
    }
    expect(levels(-8.3, 31, 90, 'mm').map(({ label }) => label)).toEqual(['0', '10', '20', '30']);
    expect(levels(-0.1, 0.4, 100, 'mm').map(({ label }) => label)).toEqual(['0.0', '0.2', '0.4']);
  });
});

describe('picture of the steps', () => {
  it('shows the most severe state of the given pairs, and unknown steps', () => {
    expect(stepPicture(result(), [0]).states).toEqual([
      'clear',
      'clear',
      'unreachable',
      'tight',
      'touches',
      'pending',
    ]);
    expect(stepPicture(result(), [1]).states).toEqual([
      'far',
      'far',
      'unreachable',
      'far',
      'unknown',
      'pending',
    ]);
    // A contact is more severe than an unknown state.
    expect(stepPicture(result(), [0, 1]).states[4]).toBe('touches');
  });

  it('gives the worst margin of the pairs', () => {
    const { marginMm } = stepPicture(result(), [0, 1]);
    expect([...marginMm].slice(0, 2)).toEqual([15, 4]);
    expect(marginMm[4]).toBeNaN();
  });
});
