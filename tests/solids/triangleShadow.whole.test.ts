import { describe, expect, test } from 'vitest';
import { addScaled, lerp, type Vec3 } from '../../src/math/vec.ts';
import { triangleShadow } from '../../src/solids/triangleShadow.ts';
import { between, cases, mulberry32 } from '../oracles/random.ts';
import { randomPoint } from './benchCorner.ts';

const SEED = 7421;

type Triangle = readonly [Vec3, Vec3, Vec3];
type Span = [least: number, most: number];

/** Radii of a triangle at one y: those of a level segment; the least at its end or at the foot of the square on it. */
function radiiAt(triangle: Triangle, y: number): Span {
  const ends = triangle.flatMap((p, k): Vec3[] => {
    const q = triangle[(k + 1) % 3];
    return p[1] < y === q[1] < y ? [] : [lerp(p, q, (y - p[1]) / (q[1] - p[1]))];
  });
  const [[ax, , az], [bx, , bz]] = ends;
  const [dx, dz] = [bx - ax, bz - az];
  const s = Math.min(1, Math.max(0, -(ax * dx + az * dz) / (dx * dx + dz * dz)));
  return [Math.hypot(ax + s * dx, az + s * dz), Math.max(Math.hypot(ax, az), Math.hypot(bx, bz))];
}

/** Radii that polygons cover at one y: one span, since they touch each other. */
function coveredAt(polygons: [number, number][][], y: number): Span {
  const crossings = polygons.flatMap((polygon) =>
    polygon.flatMap(([r, along], k) => {
      const [r2, along2] = polygon[(k + 1) % polygon.length];
      return along < y === along2 < y ? [] : [r + ((y - along) / (along2 - along)) * (r2 - r)];
    }),
  );
  return [Math.min(...crossings), Math.max(...crossings)];
}

const area = (polygon: [number, number][]) =>
  polygon.reduce((sum, [r, y], k) => {
    const [r2, y2] = polygon[(k + 1) % polygon.length];
    return sum + (r * y2 - r2 * y) / 2;
  }, 0);

/** Triangles at every kind of place: beside the axis, across it, with an edge or a corner on it, nearly square to it. */
function randomTriangle(random: () => number): Triangle {
  const reach = 10 ** between(random, 0, 2.5);
  const about: Vec3 = random() < 0.5 ? [0, 0, 0] : randomPoint(random, 200);
  const at = (): Vec3 => addScaled(about, randomPoint(random, reach), 1);
  const [a, b, c] = [at(), at(), at()];
  const kind = Math.floor(5 * random());
  if (kind === 0) return [[0, a[1], 0], b, c];
  if (kind === 1) return [[0, a[1], 0], [0, b[1], 0], c];
  if (kind === 2) return [a, [a[0], b[1], a[2]], c];
  if (kind === 3) return [a, [b[0], a[1] + 1e-7 * random(), b[2]], [c[0], a[1] - 1e-7 * random(), c[2]]];
  return [a, b, c];
}

describe('the shadow of a triangle beside the axis', () => {
  test('contains all radii of the triangle at every y, and none further off than the tolerance', () => {
    const random = mulberry32(SEED);
    let twoSided = 0;
    for (let i = 0; i < cases(1200, 3000); i++) {
      const triangle = randomTriangle(random);
      const toleranceMm = 10 ** between(random, -4, 0);
      const about = `seed ${SEED}, triangle ${i}: ${JSON.stringify(triangle)} to ${toleranceMm} mm`;
      const polygons = triangleShadow(triangle, toleranceMm);
      if (polygons.length === 2) twoSided++;
      expect(polygons.length, about).toBeGreaterThan(0);
      for (const polygon of polygons) expect(area(polygon), about).toBeGreaterThanOrEqual(0);
      const heights = triangle.map(([, y]) => y);
      const [bottom, top] = [Math.min(...heights), Math.max(...heights)];
      for (let k = 0; k < 20; k++) {
        const y = bottom + (top - bottom) * between(random, 1e-3, 1 - 1e-3);
        const [least, most] = radiiAt(triangle, y);
        const [from, to] = coveredAt(polygons, y);
        // If a triangle is nearly square to the axis, rounding of its y moves its radii noticeably.
        const roundingMm = 1e-9 + (1e-10 * most) / (top - bottom);
        expect(from, `${about}, least at y ${y}`).toBeLessThanOrEqual(least + roundingMm);
        expect(from, `${about}, least at y ${y}`).toBeGreaterThanOrEqual(least - toleranceMm - roundingMm);
        expect(to, `${about}, most at y ${y}`).toBeGreaterThanOrEqual(most - roundingMm);
        expect(to, `${about}, most at y ${y}`).toBeLessThanOrEqual(most + toleranceMm + roundingMm);
      }
    }
    expect(twoSided).toBeGreaterThan(300);
  });

  test('starts at the middle of the face if that is nearest to the axis: 30 mm, straight along y', () => {
    const polygons = triangleShadow(
      [
        [-40, 0, 30],
        [40, 0, 30],
        [0, 20, 30],
      ],
      0.01,
    );
    for (const y of [0.001, 7, 19]) expect(coveredAt(polygons, y)[0]).toBeCloseTo(30, 12);
    // The greatest radius belongs to the corner at 40 beside and 30 up.
    expect(coveredAt(polygons, 1e-9)[1]).toBeCloseTo(50, 6);
  });

  test('is exact for edges along the axis or in a plane through it, at any tolerance', () => {
    const polygons = triangleShadow(
      [
        [3, 0, 4],
        [6, 10, 8],
        [3, 10, 4],
      ],
      0.5,
    );
    expect(coveredAt(polygons, 5)).toEqual([5, 7.5].map((r) => expect.closeTo(r, 12)));
  });

  test('is empty for a triangle square to the axis, and for one without area', () => {
    expect(
      triangleShadow(
        [
          [1, 5, 2],
          [9, 5, 2],
          [3, 5, 8],
        ],
        0.1,
      ),
    ).toEqual([]);
    expect(
      triangleShadow(
        [
          [1, 1, 1],
          [2, 2, 2],
          [4, 4, 4],
        ],
        0.1,
      ),
    ).toEqual([]);
  });
});
