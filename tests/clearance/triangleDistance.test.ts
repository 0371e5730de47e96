import { describe, expect, it } from 'vitest';
import { ROUNDING, triangleDistanceSq, trianglePair } from '../../src/clearance/triangleDistance.ts';
import { mulberry32 } from '../oracles/random.ts';
import { slowTriangleDistance } from '../oracles/triangleOracle.ts';
import { PAIRS } from '../oracles/trianglePairs.ts';

const CASES = 400;
const distanceOf = (s: readonly number[], t: readonly number[]): number =>
  Math.sqrt(triangleDistanceSq(Float64Array.from(s), 0, Float64Array.from(t), 0));

/** Distance of a point from a triangle, from the slow oracle. */
const off = (p: readonly number[], t: readonly number[]): number =>
  slowTriangleDistance([...p, ...p, ...p], t);

describe('triangle distance against the convex program', () => {
  for (const [name, make] of Object.entries(PAIRS)) {
    it(name, () => {
      for (let seed = 1; seed <= CASES; seed++) {
        const [s, t] = make(mulberry32(seed));
        const size = Math.max(...s.map(Math.abs), ...t.map(Math.abs));
        const slack = ROUNDING * size;
        const d = distanceOf(s, t);
        const points = [...trianglePair.points];
        const { crossing } = trianglePair;
        const slow = slowTriangleDistance(s, t);
        const where = `${name}, seed ${seed}: fast ${d}, slow ${slow}`;
        expect(Math.abs(d - slow), where).toBeLessThanOrEqual(1e-9 * slow + slack);
        const [p, q] = [points.slice(0, 3), points.slice(3)];
        expect(Math.hypot(...p.map((x, k) => x - q[k])), where).toBeCloseTo(d, 12);
        expect(off(p, s), `${where}: first point off its triangle`).toBeLessThanOrEqual(slack);
        expect(off(q, t), `${where}: second point off its triangle`).toBeLessThanOrEqual(slack);
        if (crossing) expect(slow, where).toBeLessThanOrEqual(slack);
        const turned = distanceOf(t, s);
        expect(Math.abs(turned - d), `${where}: the other way round ${turned}`).toBeLessThanOrEqual(
          1e-9 * slow + slack,
        );
      }
    });
  }
});

describe('crossing', () => {
  const base = [0, 0, 0, 10, 0, 0, 0, 10, 0];
  it('is true if an edge passes through the face', () => {
    expect(distanceOf(base, [2, 2, -1, 2, 3, 1, 3, 2, 1])).toBe(0);
    expect(trianglePair.crossing).toBe(true);
    expect(trianglePair.points[2]).toBe(0);
    expect([...trianglePair.points.slice(0, 3)]).toEqual([...trianglePair.points.slice(3)]);
  });
  it('is false if a corner rests on the face', () => {
    expect(distanceOf(base, [2, 2, 0, 2, 3, 1, 3, 2, 1])).toBe(0);
    expect(trianglePair.crossing).toBe(false);
  });
  it('is false for triangles that share an edge or coincide', () => {
    expect(distanceOf(base, [0, 0, 0, 10, 0, 0, 3, 2, 5])).toBe(0);
    expect(trianglePair.crossing).toBe(false);
    expect(distanceOf(base, [1, 1, 0, 4, 1, 0, 1, 4, 0])).toBe(0);
    expect(trianglePair.crossing).toBe(false);
  });
  it('is false beside the face', () => {
    expect(distanceOf(base, [-2, 2, -1, -2, 3, 1, -3, 2, 1])).toBeCloseTo(2, 12);
    expect(trianglePair.crossing).toBe(false);
  });
});
