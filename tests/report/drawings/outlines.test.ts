import { describe, expect, it } from 'vitest';
import { clipped } from '../../../src/report/drawings/clipped.ts';
import type { Point } from '../../../src/report/drawings/ontoScreen.ts';
import { thinLine, thinOutline } from '../../../src/solids/thinOutline.ts';
import { between, mulberry32 } from '../../oracles/random.ts';

const areaOf = (outline: readonly Point[]): number =>
  outline.reduce((sum, [x, y], i) => {
    const [u, v] = outline[(i + 1) % outline.length];
    return sum + (x * v - u * y) / 2;
  }, 0);

const circle = (radius: number, corners: number): Point[] =>
  Array.from({ length: corners }, (_, i): Point => {
    const angle = (2 * Math.PI * i) / corners;
    return [radius * Math.cos(angle), radius * Math.sin(angle)];
  });

/** Distance of a point from a closed outline, by all of its sides. */
const fromOutline = ([x, y]: Point, outline: readonly Point[]): number =>
  Math.min(
    ...outline.map(([ax, ay], i) => {
      const [bx, by] = outline[(i + 1) % outline.length];
      const lengthSq = (bx - ax) ** 2 + (by - ay) ** 2;
      const t = Math.min(1, Math.max(0, ((x - ax) * (bx - ax) + (y - ay) * (by - ay)) / lengthSq));
      return Math.hypot(x - ax - t * (bx - ax), y - ay - t * (by - ay));
    }),
  );

describe('a simplified outline', () => {
  it('leaves out the corners on straight sides, and keeps those of a square', () => {
    const square: Point[] = [
      [0, 0],
      [5, 0],
      [10, 0],
      [10, 4],
      [10, 10],
      [0, 10],
      [0, 3],
    ];
    expect(thinOutline(square, 1e-9)).toEqual([
      [0, 0],
      [10, 0],
      [10, 10],
      [0, 10],
    ]);
    expect(thinLine(square.slice(0, 4), 1e-9)).toEqual([
      [0, 0],
      [10, 0],
      [10, 4],
    ]);
  });

  it('is within the tolerance of every corner of random outlines', () => {
    for (let seed = 1; seed <= 20; seed++) {
      const random = mulberry32(seed);
      const outline = circle(50, 120).map(([x, y]): Point => {
        const by = between(random, 0.97, 1.03);
        return [x * by, y * by];
      });
      const fewer = thinOutline(outline, 0.8);
      expect(fewer.length, `seed ${seed}`).toBeLessThan(outline.length);
      for (const point of outline)
        expect(fromOutline(point, fewer), `seed ${seed}`).toBeLessThanOrEqual(0.8 + 1e-9);
    }
  });
});

describe('an outline clipped to a box', () => {
  it('keeps the half of a circle above a chord, and all of what is inside', () => {
    const box = { left: -100, top: 0, width: 200, height: 200 };
    expect(areaOf(clipped(circle(50, 2000), box))).toBeCloseTo((Math.PI * 50 ** 2) / 2, 1);
    expect(clipped(circle(50, 12), { left: -60, top: -60, width: 120, height: 120 })).toEqual(circle(50, 12));
    expect(clipped(circle(5, 12), { left: 10, top: 10, width: 5, height: 5 })).toEqual([]);
  });

  it('is the box if the outline is around it', () => {
    expect(areaOf(clipped(circle(500, 40), { left: -10, top: -20, width: 30, height: 40 }))).toBeCloseTo(
      1200,
      9,
    );
  });
});
