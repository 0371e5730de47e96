import { describe, expect, it } from 'vitest';
import { type Body, prepareBody } from '../../src/clearance/body.ts';
import { measure } from '../../src/clearance/query.ts';
import {
  applyPoint,
  identity,
  invert,
  type Rigid,
  rotationAbout,
  translation,
} from '../../src/math/rigid.ts';
import { distance, type Vec3 } from '../../src/math/vec.ts';
import type { Mesh } from '../../src/solids/solid.ts';
import { bruteForcePointDistance, randomRigid } from '../oracles/bruteForce.ts';
import { mulberry32 } from '../oracles/random.ts';
import { box, moved, ring, rod, sphere, torus } from '../oracles/shapes.ts';

const ready = (mesh: Mesh): Body => prepareBody(mesh, { chordErrorMm: 0 });

function overlapOf(a: Body, b: Body, aFromB: Rigid, depthToleranceMm = 0.05) {
  const found = measure(a, b, aFromB, { depthToleranceMm });
  if (found.kind !== 'overlapping') throw new Error(`${found.kind}, not overlapping`);
  return found;
}

describe('depth in closed form', () => {
  // Each case: name, the two bodies, the position of the second, and the depth of the deepest surface point of either
  // body.
  const tube = ring(
    [
      [20, -30],
      [26, -30],
      [26, 30],
      [20, 30],
    ],
    96,
  );
  const cases: [string, Mesh, Mesh, Vec3, number][] = [
    ['box sunk into a box by 1.5', box(20, 20, 20), box(4, 4, 4), [0, 0, 10.5], 1.5],
    ['box in the middle of a large one: its faces', box(20, 20, 20), box(4, 4, 4), [0, 0, 0], 10 - 2],
    // The deepest point of the sphere is where |x| = |y| = |z| = m is least: (m + 2)^2 + 2 m^2 = 5^2.
    [
      'sphere in a box, 2 off the middle',
      box(40, 40, 40),
      sphere(5, 64),
      [2, 0, 0],
      20 - (Math.sqrt(268) - 4) / 6,
    ],
    ['sphere sunk into a box by 3', box(40, 40, 40), sphere(5, 64), [22, 0, 0], 3],
    ['rod sunk into the wall of a bore by 1', tube, rod(8, -5, 5, 96), [13, 0, 0], 1],
  ];
  it.each(cases)('%s', (name, a, b, at, expected) => {
    for (const tolerance of [1, 0.1, 0.01]) {
      const found = overlapOf(ready(a), ready(b), translation(at), tolerance);
      const depth = -found.distanceMm;
      // Facets of the bore and of the sphere are this far from the round shape.
      const facets = name.startsWith('box') ? 1e-9 : 20 * (1 - Math.cos(Math.PI / 64));
      expect(depth).toBeLessThanOrEqual(expected + facets);
      expect(depth + found.errorMm + facets).toBeGreaterThanOrEqual(expected);
      expect(found.errorMm).toBeLessThanOrEqual(Math.max(tolerance, 0.01 * depth) + 1e-9);
    }
  });
});

describe('depth against the slow method', () => {
  const shapes = [box(8, 5, 3), rod(3, -6, 6, 12), sphere(5, 12), torus(8, 2, 12, 6)];

  /** Depth of a point inside a closed surface, from its winding number and every triangle; 0 outside. */
  function depthOf(mesh: Mesh, p: Vec3): number {
    let angle = 0;
    const { positions, triangles } = mesh;
    for (let t = 0; t < triangles.length; t += 3) {
      const [a, b, c] = [0, 1, 2].map((k) =>
        [0, 1, 2].map((n) => positions[3 * triangles[t + k] + n] - p[n]),
      );
      const dot = (u: number[], v: number[]) => u[0] * v[0] + u[1] * v[1] + u[2] * v[2];
      const volume =
        a[0] * (b[1] * c[2] - b[2] * c[1]) +
        a[1] * (b[2] * c[0] - b[0] * c[2]) +
        a[2] * (b[0] * c[1] - b[1] * c[0]);
      const [la, lb, lc] = [a, b, c].map((u) => Math.sqrt(dot(u, u)));
      angle += 2 * Math.atan2(volume, la * lb * lc + dot(a, b) * lc + dot(b, c) * la + dot(c, a) * lb);
    }
    return Math.abs(angle) > 2 * Math.PI ? bruteForcePointDistance(mesh, p) : 0;
  }

  it('no sampled point is deeper than the bound, and the deepest point has the reported depth', () => {
    let overlaps = 0;
    for (let seed = 1; seed <= 24; seed++) {
      const random = mulberry32(seed);
      const [a, b] = [shapes[seed % 4], shapes[(seed >> 2) % 4]];
      const aFromB = randomRigid(random, 5);
      const found = measure(ready(a), ready(b), aFromB);
      if (found.kind !== 'overlapping') continue;
      overlaps++;
      const where = `seed ${seed}`;
      const depth = -found.distanceMm;
      expect(distance(found.pointA, found.pointB), where).toBeCloseTo(depth, 9);
      const bFromA = invert(aFromB);
      const deepest = Math.max(depthOf(b, applyPoint(bFromA, found.pointA)), depthOf(a, found.pointB));
      expect(deepest, where).toBeCloseTo(depth, 9);
      for (const [mesh, other, t] of [
        [a, b, bFromA],
        [b, a, aFromB],
      ] as const) {
        for (let k = 0; k < 150; k++) {
          const at = 3 * Math.floor((random() * mesh.triangles.length) / 3);
          const [u, v] = [random(), random()].sort();
          const point = [0, 1, 2].map((n) => {
            const [p, q, r] = [0, 1, 2].map((c) => mesh.positions[3 * mesh.triangles[at + c] + n]);
            return p + u * (q - p) + (1 - v) * (r - p);
          });
          const inside = depthOf(other, applyPoint(t, [point[0], point[1], point[2]]));
          expect(inside, where).toBeLessThanOrEqual(depth + found.errorMm + 1e-9);
        }
      }
    }
    expect(overlaps).toBeGreaterThan(12);
  });
});

it('depth is the same bits whatever was measured before', () => {
  const [a, b] = [ready(torus(30, 8, 32, 16)), ready(rod(5, -40, 40, 24))];
  const pose = rotationAbout([0, 0, 0], [1, 0, 0], 0.3);
  expect(measure(a, b, pose)).toEqual(measure(a, b, pose));
});

it('depth with a zone is that of the surface outside the zone in the whole body', () => {
  const zones = [{ shape: 'sphere', centre: [0, 0, 10], radiusMm: 6 }] as const;
  const base = prepareBody(box(40, 40, 20), { chordErrorMm: 0, zones });
  // A pin through the top. Only its foot is outside the zone: 8 below the top and 2 outside the zone.
  const pin = prepareBody(moved(rod(1, 2, 18, 32), identity()), { chordErrorMm: 0, zones });
  const found = measure(base, pin, identity());
  expect(found.kind).toBe('overlapping');
  if (found.kind === 'overlapping') expect(Math.abs(found.distanceMm + 8)).toBeLessThanOrEqual(found.errorMm);
});
