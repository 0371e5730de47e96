import { describe, expect, it } from 'vitest';
import { type Body, prepareBody } from '../../src/clearance/body.ts';
import type { Clearance } from '../../src/clearance/clearance.ts';
import { measure } from '../../src/clearance/query.ts';
import { compose, identity, invert, type Rigid, rotationAbout, translation } from '../../src/math/rigid.ts';
import { normalize, type Vec3 } from '../../src/math/vec.ts';
import { box, capsule, meshOf, rod, sphere } from '../oracles/shapes.ts';

/**
 * Distances expected in the test suites of general-purpose collision libraries:
 * - coal: coal-library/coal, commit cf759661577134b527455e5a09c050fd8684d1df, folder test
 * - fcl: flexible-collision-library/fcl, commit e5efcc41b57b2d0da3bf183480f1298a6d531f44, folder test
 * - manifold: elalish/manifold, commit d00dbe1d4832e375cc45535abc18c3b105c375fa, test/measurement_test.cpp
 * - openGJK: MattiaMontanari/openGJK, commit 174d3aa0b0cdf3a57f7ac5990a3a34ecda4e60f2, examples/c
 */

const ORIGIN: Vec3 = [0, 0, 0];
const Y: Vec3 = [0, 1, 0];
const Z: Vec3 = [0, 0, 1];
const SEGMENTS = 96;
/** Round in both directions; each adds a chord error. */
const roundErrorMm = (radius: number): number => 2 * radius * (1 - Math.cos(Math.PI / SEGMENTS));

const flat = (x: number, y: number, z: number): Body => prepareBody(box(x, y, z), { chordErrorMm: 0 });
const ball = (radius: number): Body =>
  prepareBody(sphere(radius, SEGMENTS), { chordErrorMm: roundErrorMm(radius) });
const pill = (radius: number, height: number): Body =>
  prepareBody(capsule(radius, height, SEGMENTS), { chordErrorMm: roundErrorMm(radius) });
const cylinder = (radius: number, height: number): Body =>
  prepareBody(rod(radius, -height / 2, height / 2, SEGMENTS), { chordErrorMm: roundErrorMm(radius) });
const turned = (axis: Vec3, degrees: number): Rigid => rotationAbout(ORIGIN, axis, (degrees * Math.PI) / 180);
const placed = (t: Vec3, r: Rigid = identity()): Rigid => compose(translation(t), r);

/** Flat bodies must be exact, round ones within the error stated in the result. */
function expectDistance(found: Clearance, expected: number, exactMm = 1e-8): void {
  expect(found.kind).toBe(expected > 0 ? 'separated' : 'overlapping');
  if (found.kind !== 'separated' && found.kind !== 'overlapping') return;
  expect(Math.abs(found.distanceMm - expected)).toBeLessThanOrEqual(found.errorMm + exactMm);
}

describe('coal test/box_box_distance.cpp', () => {
  it('1: a box beside a box', () => {
    const found = measure(flat(6, 10, 2), flat(2, 2, 2), placed([25, 20, 5]));
    expectDistance(found, Math.sqrt(21 ** 2 + 14 ** 2 + 3 ** 2));
    expect(found).toMatchObject({ pointA: [3, 5, 1], pointB: [24, 19, 4] });
  });
  it('2: a box standing on its corner above a box', () => {
    const found = measure(
      flat(6, 10, 2),
      flat(2, 2, 2),
      placed([0, 0, 10], turned(normalize([1, 1, 1]), 45)),
    );
    expectDistance(found, 7.37876556);
    if (found.kind !== 'separated') return;
    expect(found.pointA[0]).toBeCloseTo(0.60947571, 8);
    expect(found.pointA[1]).toBeCloseTo(0.01175873, 8);
    expect(found.pointA[2]).toBeCloseTo(1, 8);
    expect(found.pointB[2]).toBeCloseTo(8.37876556, 8);
  });
  const edgeOn = (common: Rigid): Clearance => {
    const worldFromA = compose(common, placed([-2, 1, 0.5], turned(Z, 45)));
    const worldFromB = compose(common, placed([2, 0.5, 0.5], turned(Y, 45)));
    return measure(flat(1, 1, 1), flat(1, 1, 1), compose(invert(worldFromA), worldFromB));
  };
  it('3: edge against edge, also after a common rotation and translation', () => {
    expectDistance(edgeOn(identity()), 4 - Math.SQRT2);
    const [w, x, y, z] = [0.435952844074, -0.718287018243, 0.310622451066, 0.444435113443];
    const axis = normalize([x, y, z]);
    const angle = 2 * Math.atan2(Math.hypot(x, y, z), w);
    expectDistance(
      edgeOn(compose(translation([4, 5, 6]), rotationAbout(ORIGIN, axis, angle))),
      4 - Math.SQRT2,
    );
  });
  it.each([
    [2, 1],
    [1.01, 0.01],
    [0.99, -0.01],
  ])('4: unit boxes %d apart: %d', (x, expected) => {
    const found = measure(flat(1, 1, 1), flat(1, 1, 1), placed([x, 0, 0]));
    expectDistance(found, expected);
    if ('distanceMm' in found) expect(found.distanceMm).toBeCloseTo(expected, 12);
  });
});

describe('coal test/capsule_capsule.cpp', () => {
  it.each([
    [[20.1, 0, 0], identity(), 10.1],
    [[20, 20, 0], identity(), Math.sqrt(800) - 10],
    [[0, 0, 20.1], identity(), 0.1],
    [[0, 0, 25.1], turned(Y, 90), 10.1],
  ] as const)('capsules r 5, 10 long, at %j: case %#', (at, turn, expected) => {
    expectDistance(measure(pill(5, 10), pill(5, 10), placed(at, turn)), expected);
  });
});

describe('fcl test/test_fcl_capsule_box_1.cpp and _2.cpp', () => {
  it.each([
    [[3, 0, 0], identity(), 0.5],
    [[0, 0, 8], identity(), 2],
    [[-10, 0, 0], turned(Y, 90), 5.5],
    [[-10, 0.8, 1.5], turned(Y, 90), 5.5],
  ] as const)('box 1 2 4 and capsule r 2, 4 long, at %j: case %#', (at, turn, expected) => {
    expectDistance(measure(flat(1, 2, 4), pill(2, 4), placed(at, turn)), expected);
  });
  it('gives the points of the last case', () => {
    const found = measure(flat(1, 2, 4), pill(2, 4), placed([-10, 0.8, 1.5], turned(Y, 90)));
    if (found.kind !== 'separated') throw new Error(found.kind);
    [-0.5, 0.8, 1.5].forEach((x, k) => {
      expect(found.pointA[k]).toBeCloseTo(x, 9);
    });
    [-6, 0.8, 1.5].forEach((x, k) => {
      expect(found.pointB[k]).toBeCloseTo(x, 9);
    });
  });
});

describe('fcl test/test_fcl_signed_distance.cpp', () => {
  it.each([
    [40, 10],
    [25, -5],
  ])('spheres r 20 and r 10 at %d: %d', (x, expected) => {
    expectDistance(measure(ball(20), ball(10), placed([x, 0, 0])), expected);
  });
  it.each([
    [40, 10],
    [25, -5],
  ])('sphere r 20 and capsule r 10, 20 long, at %d: %d', (x, expected) => {
    expectDistance(measure(ball(20), pill(10, 20), placed([x, 0, 0])), expected);
  });
});

it('fcl test/test_fcl_sphere_sphere.cpp: four spheres, every pair', () => {
  const spheres: [number, Vec3][] = [
    [0.5, [0, 0, -1]],
    [0.6, [1.2, 0, 0]],
    [0.4, [-0.3, 0, 0]],
    [0.3, [0, 0, 1]],
  ];
  for (const [r1, c1] of spheres) {
    for (const [r2, c2] of spheres) {
      if (c1 === c2) continue;
      const offset: Vec3 = [c2[0] - c1[0], c2[1] - c1[1], c2[2] - c1[2]];
      expectDistance(measure(ball(r1), ball(r2), placed(offset)), Math.hypot(...offset) - r1 - r2);
    }
  }
});

describe('fcl test/test_fcl_geometric_shapes.cpp', () => {
  it.each([
    [10.1, 0.1],
    [40, 30],
  ])('cylinders r 5, 10 high, at %d: %d', (x, expected) => {
    expectDistance(measure(cylinder(5, 10), cylinder(5, 10), placed([x, 0, 0])), expected);
  });
  it.each([
    [22.6, 0.1],
    [40, 17.5],
  ])('sphere r 20 and box 5 5 5 at %d: %d', (x, expected) => {
    expectDistance(measure(ball(20), flat(5, 5, 5), placed([x, 0, 0])), expected);
  });
  it('boxes 10 10 10 edge to edge', () => {
    expectDistance(measure(flat(10, 10, 10), flat(10, 10, 10), placed([10.1, 10.1, 0])), 0.1 * Math.SQRT2);
  });
});

describe('fcl test/test_fcl_sphere_cylinder.cpp', () => {
  it.each([0, 4.5, 8.9985])('a tiny sphere half sunk into a thin disc, at radius %d: .00075 deep', (r) => {
    const found = measure(cylinder(9, 0.0025), ball(0.0015), placed([r, 0, 0.0025 / 2 + 0.0015 - 0.00075]), {
      depthToleranceMm: 1e-7,
    });
    expect(found.kind).toBe('overlapping');
    if (found.kind !== 'overlapping') return;
    expect(Math.abs(found.distanceMm + 0.00075)).toBeLessThan(1e-7 + 0.01 * 0.00075);
  });
});

describe('manifold test/measurement_test.cpp', () => {
  it.each([
    [[2, 2, 0], Math.SQRT2],
    [[3, 3, 0], 2 * Math.SQRT2],
  ] as const)('unit cubes at %j: %d', (at, expected) => {
    const found = measure(flat(1, 1, 1), flat(1, 1, 1), placed(at));
    expectDistance(found, expected, 1e-12);
  });
  it('cubes edge to edge', () => {
    const found = measure(
      flat(1, 1, 1),
      flat(1, 1, 1),
      compose(turned(Z, -45), placed([2, 0, 0], turned(Y, 45))),
    );
    expectDistance(found, 2 - Math.SQRT2, 1e-12);
  });
  it('reports spheres further apart than the limit as beyond', () => {
    const at = placed([2, 2, 0]);
    expect(measure(ball(1), ball(1), at, { limitMm: 0.8 })).toEqual({ kind: 'beyond', limitMm: 0.8 });
    expectDistance(measure(ball(1), ball(1), at), 2 * Math.SQRT2 - 2);
  });
  it('reports a cube and a sphere about its corner as overlapping', () => {
    expect(measure(flat(1, 1, 1), ball(1), placed([0.5, 0.5, 0.5])).kind).toBe('overlapping');
  });
});

it('openGJK examples/c userP.dat, userQ.dat: two polytopes', () => {
  const points: Vec3[] = [
    [0, 5.5, 0],
    [2.3, 1, -2],
    [8.1, 4, 2.4],
    [4.3, 5, 2.2],
    [2.5, 1, 2.3],
    [7.1, 1, 2.4],
    [1, 1.5, 0.3],
    [3.3, 0.5, 0.3],
    [6, 1.4, 0.2],
  ];
  const p = prepareBody(hull(points), { chordErrorMm: 0 });
  const q = prepareBody(hull(points.map(([x, y, z]): Vec3 => [-x, -y, -z])), { chordErrorMm: 0 });
  expect([p.closed, q.closed]).toEqual([true, true]);
  const found = measure(p, q, identity());
  if (found.kind !== 'separated') throw new Error(found.kind);
  expect(found.distanceMm).toBeCloseTo(3.653649722294501, 13);
  // Two edges are parallel there, so only the vector between the points is determined, not its position along the
  // edges.
  [1.0251728907, 1.4903181189, 0.2554633472].forEach((x, k) => {
    expect((found.pointA[k] - found.pointB[k]) / 2).toBeCloseTo(x, 9);
  });
});

/** Convex hull of points in general position: every three points with all others on one side. */
function hull(points: readonly Vec3[]) {
  const triangles: Vec3[] = [];
  for (let i = 0; i < points.length; i++) {
    for (let j = 0; j < points.length; j++) {
      for (let k = 0; k < points.length; k++) {
        if (i >= j || i >= k || j === k) continue;
        const [a, b, c] = [points[i], points[j], points[k]];
        const [u, v] = [b, c].map((corner) => corner.map((x, n) => x - a[n]));
        const n = [u[1] * v[2] - u[2] * v[1], u[2] * v[0] - u[0] * v[2], u[0] * v[1] - u[1] * v[0]];
        const behind = points.every(
          (p, m) =>
            m === i ||
            m === j ||
            m === k ||
            n[0] * (p[0] - a[0]) + n[1] * (p[1] - a[1]) + n[2] * (p[2] - a[2]) < 0,
        );
        if (behind) triangles.push([i, j, k]);
      }
    }
  }
  return meshOf(points, triangles);
}
