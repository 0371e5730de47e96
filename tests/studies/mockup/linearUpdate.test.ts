import { Matrix, solve } from 'ml-matrix';
import { describe, expect, it } from 'vitest';
import { linearUpdate } from '../../../src/studies/mockup/linearUpdate.ts';
import { mulberry32 } from '../../oracles/random.ts';

describe('the linear Bayesian update', () => {
  // S. Thrun, Artificial Intelligence for Robotics (Udacity CS373), measurement update of two normal distributions; inputs
  // also in the example of kalmanUpdate of the R package SciencesPo. Results from memory.
  it.each([
    { mean: 10, variance: 8, measured: 13, noise: 2, updated: 12.4 },
    { mean: 10, variance: 4, measured: 12, noise: 4, updated: 11 },
  ])('moves $mean toward $measured as published', ({ mean, variance, measured, noise, updated }) => {
    const [change] = linearUpdate({
      plusMinus: [Math.sqrt(variance)],
      slopes: [[1]],
      differences: [measured - mean],
      noise: [Math.sqrt(noise)],
    });
    expect(mean + change).toBeCloseTo(updated, 12);
  });

  it('shares one difference in proportion to slope times ± squared', () => {
    const [large, small] = linearUpdate({
      plusMinus: [2, 1],
      slopes: [[0.5, -1]],
      differences: [1],
      noise: [1],
    });
    // H P Hᵀ + R = 1 + 1 + 1.
    expect(large).toBeCloseTo(2 / 3, 12);
    expect(small).toBeCloseTo(-1 / 3, 12);
  });

  it('is the least-squares solution of the stacked equations, found by singular values', () => {
    const random = mulberry32(20261201);
    for (let round = 0; round < 200; round++) {
      const values = 1 + Math.floor(6 * random());
      const gaps = 1 + Math.floor(4 * random());
      const draw = (count: number, from: number, to: number) =>
        Array.from({ length: count }, () => from + (to - from) * random());
      const plusMinus = draw(values, 0.1, 2);
      const noise = draw(gaps, 0.1, 1);
      const differences = draw(gaps, -5, 5);
      const slopes = noise.map(() => draw(values, -2, 2));
      const rows = [
        ...plusMinus.map((bar, v) => plusMinus.map((_, k) => (k === v ? 1 / bar : 0))),
        ...slopes.map((row, m) => row.map((slope) => slope / noise[m])),
      ];
      const right = [...plusMinus.map(() => 0), ...differences.map((d, m) => d / noise[m])];
      const expected = solve(new Matrix(rows), Matrix.columnVector(right), true).to1DArray();
      const update = linearUpdate({ plusMinus, slopes, differences, noise });
      update.forEach((change, v) => {
        expect(change, `seed 20261201, round ${round}`).toBeCloseTo(expected[v], 8);
      });
    }
  });

  it('changes nothing without values, without gaps, and refuses a gap without a ±', () => {
    expect(linearUpdate({ plusMinus: [], slopes: [[]], differences: [1], noise: [1] })).toEqual([]);
    expect(linearUpdate({ plusMinus: [1], slopes: [], differences: [], noise: [] })).toEqual([0]);
    const bare = { plusMinus: [1], slopes: [[1]], differences: [1], noise: [0] };
    expect(() => linearUpdate(bare)).toThrow(RangeError);
  });
});
