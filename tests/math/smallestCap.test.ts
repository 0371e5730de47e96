import { describe, expect, it } from 'vitest';
import { smallestCap } from '../../src/math/smallestCap.ts';
import {
  add,
  addScaled,
  cross,
  dot,
  normalize,
  perpendicular,
  scale,
  type Vec3,
} from '../../src/math/vec.ts';
import { between, mulberry32 } from '../oracles/random.ts';

const leastCosine = (directions: readonly Vec3[], centre: Vec3) =>
  Math.min(...directions.map((one) => dot(one, centre)));

/** Random directions within `spreadDeg` of a random axis. */
function around(random: () => number, count: number, spreadDeg: number): Vec3[] {
  const axis = normalize([between(random, -1, 1), between(random, -1, 1), between(random, -1, 1)]);
  const u = perpendicular(axis);
  const v = cross(axis, u);
  return Array.from({ length: count }, () => {
    const turn = between(random, 0, 2 * Math.PI);
    const out = Math.tan((between(random, 0, spreadDeg) * Math.PI) / 180);
    return normalize(add(axis, add(scale(u, out * Math.cos(turn)), scale(v, out * Math.sin(turn)))));
  });
}

describe('smallest cap', () => {
  it('is centred on one direction, midway between two, and on the axis of a cone', () => {
    const one = normalize([1, 2, 3]);
    expect(smallestCap([one])).toEqual(one);
    const two = smallestCap([
      [1, 0, 0],
      [0, 1, 0],
    ]);
    expect(two?.map((c) => c * Math.SQRT2)).toEqual([expect.closeTo(1), expect.closeTo(1), 0]);
    const cone = Array.from({ length: 24 }, (_, k): Vec3 => {
      const turn = (2 * Math.PI * k) / 24;
      return [0.6 * Math.cos(turn), 0.6 * Math.sin(turn), 0.8];
    });
    expect(dot(smallestCap(cone) as Vec3, [0, 0, 1])).toBeCloseTo(1, 12);
  });

  it('depends only on the widest two of three directions if they enclose the third', () => {
    const centre = smallestCap([
      normalize([1, 0, 1]),
      normalize([-1, 0, 1]),
      normalize([0.2, 0.1, 1]),
    ]) as Vec3;
    expect(dot(centre, [0, 0, 1])).toBeCloseTo(1, 12);
  });

  it('is not made smaller by any small rotation of its centre: 60 random sets', () => {
    const random = mulberry32(7);
    for (let set = 0; set < 60; set++) {
      const directions = around(random, 3 + set, between(random, 1, 60));
      const centre = smallestCap(directions) as Vec3;
      const u = perpendicular(centre);
      const others = Array.from({ length: 48 }, (_, k) => {
        const turn = (2 * Math.PI * k) / 24;
        const side = add(scale(u, Math.cos(turn)), scale(cross(centre, u), Math.sin(turn)));
        return leastCosine(directions, normalize(addScaled(centre, side, k < 24 ? 1e-4 : 1e-2)));
      });
      expect(Math.max(...others)).toBeLessThan(leastCosine(directions, centre) + 1e-10);
    }
  });

  it('is the best one with its centre in a plane: against 3600 others', () => {
    const random = mulberry32(8);
    for (let set = 0; set < 40; set++) {
      const directions = around(random, 2 + set, 25);
      const square = normalize(cross(directions[0], around(random, 1, 80)[0]));
      const centre = smallestCap(directions, square) as Vec3;
      expect(Math.abs(dot(centre, square))).toBeLessThan(1e-12);
      const [u, v] = [perpendicular(square), cross(square, perpendicular(square))];
      const others = Array.from({ length: 3600 }, (_, k) => {
        const turn = (2 * Math.PI * k) / 3600;
        return leastCosine(directions, add(scale(u, Math.cos(turn)), scale(v, Math.sin(turn))));
      });
      expect(Math.max(...others)).toBeLessThan(leastCosine(directions, centre) + 1e-10);
    }
  });

  it('is undefined if no cap under 90 degrees contains all directions', () => {
    expect(smallestCap([])).toBeUndefined();
    expect(
      smallestCap([
        [0, 0, 1],
        [0, 0, -1],
      ]),
    ).toBeUndefined();
    expect(smallestCap([[0, 0, 1]], [0, 0, 1])).toBeUndefined();
  });
});
