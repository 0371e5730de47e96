import { describe, expect, it } from 'vitest';
import { bandsCoarseToFine, coarseToFine, stepsThroughZero } from '../../src/sweep/steps.ts';

describe('steps through zero', () => {
  it('are evenly spaced over a symmetric range', () => {
    expect([...stepsThroughZero(-1, 1, 5)]).toEqual([-1, -0.5, 0, 0.5, 1]);
  });

  it('include both ends and zero, in ascending order', () => {
    for (const [low, high, count] of [
      [-150, 200, 41],
      [-10, 300, 7],
      [-300, 1, 3],
      [-1, 1, 4],
      [0, 120, 5],
      [-120, 0, 5],
    ] as const) {
      const steps = stepsThroughZero(low, high, count);
      expect(steps).toHaveLength(count);
      expect(steps[0]).toBe(low);
      expect(steps[count - 1]).toBe(high);
      expect([...steps]).toContain(0);
      for (let i = 1; i < count; i++) expect(steps[i]).toBeGreaterThan(steps[i - 1]);
    }
  });

  it('are rejected if there are too few', () => {
    expect(() => stepsThroughZero(-1, 1, 2)).toThrow(/at least 3/);
    expect(() => stepsThroughZero(0, 1, 1)).toThrow(/at least 2/);
    expect(() => stepsThroughZero(-1, 1, 4.5)).toThrow(RangeError);
  });
});

describe('coarse to fine', () => {
  it('lists every row once, ends first', () => {
    for (const count of [0, 1, 2, 3, 7, 41, 64]) {
      const order = coarseToFine(count);
      expect([...order].sort((a, b) => a - b)).toEqual(Array.from({ length: count }, (_, i) => i));
    }
    expect(coarseToFine(9)).toEqual([0, 8, 4, 2, 6, 1, 3, 5, 7]);
  });
});

describe('bands from coarse to fine', () => {
  it('list every row once, the first rows singly, then bands of neighbours in ascending order', () => {
    for (const count of [0, 1, 2, 3, 4, 5, 6, 7, 9, 16, 41, 64, 81]) {
      const bands = bandsCoarseToFine(count);
      const rows = bands.flat();
      expect([...rows].sort((a, b) => a - b)).toEqual(Array.from({ length: count }, (_, i) => i));
      for (const band of bands) {
        expect(band.length).toBeGreaterThan(0);
        expect(band.length).toBeLessThanOrEqual(Math.max(1, Math.ceil((count - 5) / 8)));
        expect(band).toEqual(band.map((_, k) => band[0] + k));
      }
      expect(rows.slice(0, 5)).toEqual(coarseToFine(count).slice(0, 5));
      expect(bands.slice(0, 5).every((band) => band.length === 1)).toBe(true);
    }
  });

  it('are numerous enough for all workers, and short', () => {
    for (const [count, workers] of [
      [41, 16],
      [201, 1],
      [201, 4],
      [201, 16],
      [2001, 64],
    ]) {
      const bands = bandsCoarseToFine(count, workers);
      expect([...bands.flat()].sort((a, b) => a - b)).toEqual(Array.from({ length: count }, (_, i) => i));
      expect(bands.length).toBeGreaterThanOrEqual(Math.min(count, 4 * workers));
      expect(Math.max(...bands.map((band) => band.length))).toBeLessThanOrEqual(7);
    }
  });

  it('follow in every quarter', () => {
    expect(bandsCoarseToFine(41).slice(0, 9)).toEqual([
      [0],
      [40],
      [20],
      [10],
      [30],
      [1, 2, 3, 4, 5],
      [11, 12, 13, 14, 15],
      [21, 22, 23, 24, 25],
      [31, 32, 33, 34, 35],
    ]);
  });
});
