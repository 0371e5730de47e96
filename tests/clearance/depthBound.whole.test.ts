import { describe, expect, it } from 'vitest';
import { type Body, prepareBody } from '../../src/clearance/body.ts';
import { PairQuery } from '../../src/clearance/query.ts';
import { reportedClearance } from '../../src/clearance/reportedClearance.ts';
import {
  applyPoint,
  compose,
  identity,
  invert,
  type Rigid,
  rotationAbout,
  translation,
} from '../../src/math/rigid.ts';
import { cross, distance, dot, midpoint, normalize, sub, type Vec3 } from '../../src/math/vec.ts';
import type { Mesh } from '../../src/solids/solid.ts';
import { HALF_MM, randomBars, sidesFor } from '../oracles/randomBars.ts';
import { box, moved, ring, rod, sphere } from '../oracles/shapes.ts';

/** Allowed error of a depth, mm. */
const allowedErrorMm = (depthMm: number) => Math.max(0.2, 0.05 * depthMm);

const ready = (mesh: Mesh): Body => prepareBody(mesh, { chordErrorMm: 0 });

function depthOf(a: Body, b: Body, aFromB: Rigid): { depthMm: number; openMm: number; where: Vec3[] } {
  const query = new PairQuery(a, b);
  query.run(aFromB, 60);
  expect(query.kind).toBe('overlapping');
  const where = [query.pointA, query.pointB].map(([x, y, z]): Vec3 => [x, y, z]);
  return { depthMm: -query.distanceMm, openMm: query.errorMm, where };
}

/** Frame of a bar's mesh; the bar's axis is z. */
function barFrame(from: Vec3, to: Vec3): Rigid {
  const z = normalize(sub(to, from));
  const x = normalize(cross(Math.abs(z[0]) < 0.9 ? [1, 0, 0] : [0, 1, 0], z));
  const y = cross(z, x);
  const [cx, cy, cz] = midpoint(from, to);
  return Float64Array.of(x[0], y[0], z[0], cx, x[1], y[1], z[1], cy, x[2], y[2], z[2], cz);
}

/**
 * Depth of two long bars whose axes pass at a distance. If the axis of the second runs inside the first, a point of
 * the first's surface lies on it, at the depth of the second's radius. Otherwise the nearest point of that surface
 * counts.
 */
const depthOfBars = (r1: number, r2: number, apart: number): number =>
  Math.max(r2 - Math.max(0, apart - r1), r1 - Math.max(0, apart - r2));

describe('the depth is known to 5 % or 0.2 mm', () => {
  describe.each([0.2, 0.05, 0.01, 0.002])('at a chord tolerance of %d mm', (chordMm) => {
    it.each([
      [30, 30, 0, 20],
      [30, 30, 0, 90],
      [30, 20, 12, 45],
      [30, 20, 45, 70],
      [12, 40, 30, 15],
    ])('bars of r %d and r %d, axes %d apart, at %d degrees', (r1, r2, apart, degrees) => {
      const [a, b] = [r1, r2].map((r) => ready(rod(r, -500, 500, sidesFor(r, chordMm))));
      const turn = rotationAbout([0, 0, 0], [1, 0, 0], (degrees * Math.PI) / 180);
      const { depthMm, openMm } = depthOf(a, b, compose(translation([apart, 0, 0]), turn));
      const expected = depthOfBars(r1, r2, apart);
      expect(depthMm).toBeLessThanOrEqual(expected + chordMm);
      expect(depthMm + openMm).toBeGreaterThanOrEqual(expected - 2 * chordMm);
      expect(openMm).toBeLessThanOrEqual(allowedErrorMm(depthMm));
    });
  });

  it('two bars oblique to the axes of both meshes', () => {
    const ends: [Vec3, Vec3, number][] = [
      [
        [449.09246536433, 555.2921044305832, 1156.7229034950296],
        [-933.6358565883269, 655.5464135817318, 357.9667071706344],
        33.38,
      ],
      [
        [496.7425661062802, 818.1595108163776, 985.249364968856],
        [-930.452724759193, 347.80765399831836, 435.8108037818739],
        45.13,
      ],
    ];
    const bars = ends.map(([from, to, r]) => {
      const half = distance(from, to) / 2;
      return ready(moved(rod(r, -half, half, sidesFor(r, 0.05)), barFrame(from, to)));
    });
    const [one, other] = ends;
    const across = normalize(cross(sub(one[1], one[0]), sub(other[1], other[0])));
    const apart = Math.abs(dot(across, sub(other[0], one[0])));
    const { depthMm, openMm } = depthOf(bars[0], bars[1], identity());
    expect(Math.abs(depthMm - depthOfBars(one[2], other[2], apart))).toBeLessThanOrEqual(openMm + 0.1);
    expect(openMm).toBeLessThanOrEqual(allowedErrorMm(depthMm));
  });

  // If the middle of one is inside the other, the other's surface passes it at |d - r|.
  it.each([
    [40, 30, 50],
    [40, 30, 25],
    [40, 12, 35],
  ])('balls of r %d and r %d, %d apart', (r1, r2, apart) => {
    const { depthMm, openMm } = depthOf(
      ready(sphere(r1, 96)),
      ready(sphere(r2, 96)),
      translation([apart, 0, 0]),
    );
    const expected = Math.max(r2 - Math.abs(apart - r1), r1 - Math.abs(apart - r2));
    const facets = r1 * (1 - Math.cos(Math.PI / 96));
    expect(depthMm).toBeLessThanOrEqual(expected + 2 * facets);
    expect(depthMm + openMm).toBeGreaterThanOrEqual(expected - 2 * facets);
    expect(openMm).toBeLessThanOrEqual(allowedErrorMm(depthMm));
  });

  const tube = (inner: number, outer: number, half: number, sides: number) =>
    ring(
      [
        [inner, -half],
        [outer, -half],
        [outer, half],
        [inner, half],
      ],
      sides,
    );
  const turned = rotationAbout([0, 0, 0], [0, 0, 1], 0.02);
  const constantDepth: [string, Mesh, Mesh, Rigid, number][] = [
    ['a bush pressed into a tube 1 too tight', tube(20, 30, 50, 80), tube(29, 40, 40, 80), turned, 1],
    ['a tube whose wall is half inside another wall', tube(20, 30, 50, 80), tube(25, 40, 40, 80), turned, 5],
    [
      'washers 4 thick, one 1 into the other',
      tube(20, 40, 2, 256),
      tube(20, 40, 2, 256),
      compose(translation([0, 0, 3]), turned),
      1,
    ],
    [
      'washers 4 thick, one 2 into the other',
      tube(20, 40, 2, 256),
      tube(20, 40, 2, 256),
      compose(translation([0, 0, 2]), turned),
      2,
    ],
    [
      'a rod inside a rod about one axis, its ends out',
      rod(40, -100, 100, 96),
      rod(30, -120, 120, 72),
      identity(),
      20,
    ],
    ['a ball inside a ball about one middle', sphere(40, 64), sphere(30, 64), identity(), 10],
    ['a box half inside a box', box(40, 40, 40), box(20, 20, 20), translation([20, 0, 0]), 10],
  ];
  it.each(constantDepth)('constant depth: %s', (_, a, b, aFromB, expected) => {
    const { depthMm, openMm } = depthOf(ready(a), ready(b), aFromB);
    expect(Math.abs(depthMm - expected)).toBeLessThanOrEqual(openMm + 0.08);
    expect(openMm).toBeLessThanOrEqual(allowedErrorMm(depthMm));
  });
});

describe('random bars that overlap', () => {
  /** Depth of a point in the round bar with axis z. The mesh is within `chordMm` of that bar. */
  const inBar = (r: number, [x, y, z]: Vec3) => Math.min(r - Math.hypot(x, y), HALF_MM - Math.abs(z));

  it('have a depth known to 5 % or 0.2 mm, and no point of a dense grid on either is deeper than the bound', () => {
    let overlaps = 0;
    for (let seed = 1; seed <= 60; seed++) {
      const { radii, chordMm, bodies, aFromB, firstFromSecond } = randomBars(seed);
      const query = new PairQuery(...bodies);
      query.run(aFromB, 60);
      if (query.kind !== 'overlapping' || query.distanceMm > -0.5) continue;
      overlaps++;
      const [depthMm, openMm] = [-query.distanceMm, query.errorMm];
      expect(openMm, `seed ${seed}`).toBeLessThanOrEqual(allowedErrorMm(depthMm));
      let deepest = 0;
      for (const [k, otherFromThis] of [
        [0, invert(firstFromSecond)],
        [1, firstFromSecond],
      ] as const) {
        for (let step = 0; step <= 1200; step++) {
          for (let turn = 0; turn < 90; turn++) {
            const angle = (turn * Math.PI) / 45;
            const r = radii[k] - chordMm;
            const point: Vec3 = [r * Math.cos(angle), r * Math.sin(angle), step - HALF_MM];
            deepest = Math.max(deepest, inBar(radii[1 - k], applyPoint(otherFromThis, point)));
          }
        }
      }
      expect(depthMm + openMm, `seed ${seed}`).toBeGreaterThanOrEqual(deepest - 2 * chordMm);
      // The grid spacing is 1 mm along the bar and up to 3 mm around it.
      expect(depthMm, `seed ${seed}`).toBeLessThanOrEqual(deepest + 2 * chordMm + 2);
    }
    expect(overlaps).toBeGreaterThan(30);
  });

  it('have a depth known as well if they are hollow, or reported without an upper bound', () => {
    const counts = { known: 0, open: 0 };
    for (let seed = 1; seed <= 12; seed++) {
      const { bodies, aFromB } = randomBars(seed, true);
      const query = new PairQuery(...bodies);
      query.run(aFromB, 60);
      if (query.kind !== 'overlapping') continue;
      const { clearanceMm, errorMm } = reportedClearance(query, 0);
      if (errorMm === Number.POSITIVE_INFINITY) {
        counts.open++;
        expect(clearanceMm, `seed ${seed}`).toBeCloseTo(query.distanceMm + query.surfaceErrorMm, 12);
      } else {
        counts.known++;
        expect(errorMm, `seed ${seed}`).toBeLessThanOrEqual(
          allowedErrorMm(-clearanceMm) + query.surfaceErrorMm,
        );
      }
    }
    expect(counts.known).toBeGreaterThan(0);
    expect(counts.open).toBeGreaterThan(0);
  });

  it('have the same depth to the last bit whatever was measured before', () => {
    for (let seed = 1; seed <= 8; seed++) {
      const { bodies, aFromB } = randomBars(seed, seed % 2 === 0);
      const other = compose(aFromB, rotationAbout([0, 0, 0], [1, 0, 0], 0.2));
      const carried = new PairQuery(...bodies);
      const resultOf = (query: PairQuery) => {
        query.run(aFromB, 60);
        return [query.kind, query.distanceMm, query.errorMm, ...query.pointA, ...query.pointB];
      };
      carried.run(other, 60);
      expect(resultOf(carried), `seed ${seed}`).toEqual(resultOf(new PairQuery(...bodies)));
      expect(resultOf(new PairQuery(...randomBars(seed, seed % 2 === 0).bodies)), `seed ${seed}`).toEqual(
        resultOf(carried),
      );
    }
  });
});
