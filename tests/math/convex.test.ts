import { describe, expect, it } from 'vitest';
import { convexHull, doConvexMeet, type Point2 } from '../../src/math/convex.ts';
import { between, mulberry32 } from '../oracles/random.ts';

const SEED = 611;

const turn = (a: Point2, b: Point2, c: Point2) =>
  (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]);

const isInside = (corners: readonly Point2[], at: Point2) =>
  corners.length > 2 &&
  corners.every((corner, k) => turn(corner, corners[(k + 1) % corners.length], at) >= 0);

const edges = (corners: readonly Point2[]) =>
  corners.map((corner, k) => [corner, corners[(k + 1) % corners.length]] as const);

/** Whether one contains a corner of the other, or two of their edges cross. */
const meetByEdges = (one: readonly Point2[], other: readonly Point2[]): boolean =>
  other.some((at) => isInside(one, at)) ||
  one.some((at) => isInside(other, at)) ||
  edges(one).some(([a, b]) =>
    edges(other).some(([c, d]) => turn(a, b, c) * turn(a, b, d) < 0 && turn(c, d, a) * turn(c, d, b) < 0),
  );

describe('convex hulls and their intersection', () => {
  it(`contains every point, with some of the points as corners; seed ${SEED}`, () => {
    const random = mulberry32(SEED);
    for (let trial = 0; trial < 200; trial++) {
      const points = Array.from(
        { length: 3 + Math.floor(random() * 9) },
        (): Point2 => [between(random, -9, 9), between(random, -9, 9)],
      );
      const hull = convexHull(points);
      for (const point of points) {
        const least = Math.min(...edges(hull).map(([a, b]) => turn(a, b, point)));
        expect(least).toBeGreaterThanOrEqual(-1e-9);
      }
      expect(hull.every((corner) => points.includes(corner))).toBe(true);
    }
  });

  it('is the two ends of collinear points', () => {
    expect(
      convexHull([
        [0, 0],
        [2, 2],
        [1, 1],
      ]),
    ).toEqual([
      [0, 0],
      [2, 2],
    ]);
  });

  it(`intersects another if one contains a corner of the other or edges cross; seed ${SEED}`, () => {
    const random = mulberry32(SEED);
    const shape = (): Point2[] => {
      const [x, y] = [between(random, -6, 6), between(random, -6, 6)];
      return convexHull(
        Array.from(
          { length: 2 + Math.floor(random() * 4) },
          (): Point2 => [x + between(random, -4, 4), y + between(random, -4, 4)],
        ),
      );
    };
    const met = { yes: 0, no: 0 };
    for (let trial = 0; trial < 2000; trial++) {
      const [one, other] = [shape(), shape()];
      const expected = meetByEdges(one, other);
      expect(doConvexMeet(one, other), `${JSON.stringify([one, other])}`).toBe(expected);
      met[expected ? 'yes' : 'no'] += 1;
    }
    expect(Math.min(met.yes, met.no)).toBeGreaterThan(300);
  });

  it('intersects another that it touches, but not a separate segment in the same line', () => {
    expect(
      doConvexMeet(
        [
          [0, 0],
          [1, 0],
        ],
        [
          [1, 0],
          [1, 5],
        ],
      ),
    ).toBe(true);
    expect(
      doConvexMeet(
        [
          [0, 0],
          [1, 0],
        ],
        [
          [1.5, 0],
          [3, 0],
        ],
      ),
    ).toBe(false);
  });
});
