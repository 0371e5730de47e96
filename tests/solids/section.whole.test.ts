import { describe, expect, it } from 'vitest';
import { compose, fromAxes, identity, type Rigid, translation } from '../../src/math/rigid.ts';
import { cross, normalize, perpendicular, type Vec3 } from '../../src/math/vec.ts';
import { sectionAreaMm2, sectionOf } from '../../src/solids/section.ts';
import { signedVolumeMm3 } from '../oracles/meshChecks.ts';
import { between, mulberry32 } from '../oracles/random.ts';
import {
  box,
  merged,
  moved,
  ring,
  sphere,
  torus,
  turnedInsideOut,
  withoutTriangle,
} from '../oracles/shapes.ts';

/** A frame whose z is `normal`, through `origin`. */
function plane(normal: Vec3, origin: Vec3 = [0, 0, 0]): Rigid {
  const z = normalize(normal);
  const x = perpendicular(z);
  return fromAxes(x, cross(z, x), z, origin);
}

const TUBE = ring(
  [
    [20, -30],
    [26, -30],
    [26, 30],
    [20, 30],
  ],
  96,
);
/** Area of a regular polygon inscribed in a circle. */
const polygonArea = (radius: number, n: number) => (n / 2) * radius ** 2 * Math.sin((2 * Math.PI) / n);

describe('section of a body with a plane', () => {
  it('of a box, square to a side and along the diagonal of a side, has the exact area', () => {
    const mesh = box(30, 50, 70);
    const [region, ...more] = sectionOf(mesh, plane([0, 0, 1], [3, 4, 5]));
    expect(more).toEqual([]);
    expect(region.holes).toEqual([]);
    expect(sectionAreaMm2([region])).toBeCloseTo(30 * 50, 9);
    // The plane contains two opposite edges of the box: vertices are in the plane.
    const diagonal = sectionOf(mesh, plane([50, -30, 0]));
    expect(sectionAreaMm2(diagonal)).toBeCloseTo(Math.hypot(30, 50) * 70, 9);
  });

  it('has x and y in the plane, and material at the left of its outlines', () => {
    const frame = translation([0, 0, 10]);
    const [{ outer }] = sectionOf(moved(box(2, 4, 40), translation([7, 9, 0])), frame);
    const xs = outer.filter((_, i) => i % 2 === 0);
    const ys = outer.filter((_, i) => i % 2 === 1);
    expect([Math.min(...xs), Math.max(...xs), Math.min(...ys), Math.max(...ys)]).toEqual([6, 8, 7, 11]);
    const [across] = sectionOf(TUBE, identity());
    expect(sectionAreaMm2([{ outer: across.outer, holes: [] }])).toBeCloseTo(polygonArea(26, 96), 6);
    expect(sectionAreaMm2([{ outer: across.holes[0], holes: [] }])).toBeCloseTo(-polygonArea(20, 96), 6);
  });

  it('of a tube is a ring with a hole across the axis, and two walls along it', () => {
    const across = sectionOf(TUBE, plane([0, 0, 1], [0, 0, 7]));
    expect(across).toHaveLength(1);
    expect(across[0].holes).toHaveLength(1);
    expect(sectionAreaMm2(across)).toBeCloseTo(polygonArea(26, 96) - polygonArea(20, 96), 6);
    const along = sectionOf(TUBE, plane([0, 1, 0]));
    expect(along).toHaveLength(2);
    expect(along.flatMap(({ holes }) => holes)).toEqual([]);
    expect(sectionAreaMm2(along)).toBeCloseTo(2 * 6 * 60, 9);
  });

  it('of a ball and of a torus is exact to within the error of their chords', () => {
    const ball = sphere(50, 256);
    const chord = 50 * (1 - Math.cos(Math.PI / 256));
    for (const height of [0, 12.5, -31, 49]) {
      const area = sectionAreaMm2(
        sectionOf(ball, plane([0.3, -0.5, 0.8], normalizeTo([0.3, -0.5, 0.8], height))),
      );
      const [inner, outer] = [50 - 2 * chord, 50].map((r) => Math.PI * Math.max(0, r ** 2 - height ** 2));
      expect(area, `height ${height}`).toBeLessThanOrEqual(outer);
      expect(area, `height ${height}`).toBeGreaterThanOrEqual(inner);
    }
    // Through its axis a torus is two discs, square to its axis a ring.
    const tyre = torus(300, 90, 256, 128);
    const discs = sectionOf(tyre, plane([1, 0, 0]));
    expect(discs).toHaveLength(2);
    expect(sectionAreaMm2(discs)).toBeCloseTo(2 * polygonArea(90, 128), 4);
    const [flat] = sectionOf(tyre, plane([0, 0, 1]));
    expect(flat.holes).toHaveLength(1);
    expect(sectionAreaMm2([flat])).toBeCloseTo(polygonArea(390, 256) - polygonArea(210, 256), 4);
  });

  it('of nested bodies in one mesh assigns each hole to the outline around it', () => {
    const nestedBodies = merged(box(100, 100, 40), turnedInsideOut(box(80, 80, 30)), box(60, 60, 20));
    const holed = merged(nestedBodies, turnedInsideOut(box(10, 10, 5)));
    const regions = sectionOf(holed, plane([0, 0, 1]));
    expect(regions.map(({ holes }) => holes.length).sort()).toEqual([1, 1]);
    const areas = regions.map((region) => Math.round(sectionAreaMm2([region]))).sort((a, b) => a - b);
    expect(areas).toEqual([60 * 60 - 10 * 10, 100 * 100 - 80 * 80]);
  });

  it('at a face in the plane is that face for a body below, and empty for a body above', () => {
    const mesh = box(30, 50, 70);
    expect(sectionAreaMm2(sectionOf(mesh, plane([0, 0, 1], [0, 0, 35])))).toBeCloseTo(30 * 50, 9);
    expect(sectionOf(mesh, plane([0, 0, 1], [0, 0, -35]))).toEqual([]);
    // The same if turning the body makes its face uneven by rounding.
    const vehicleFromBody = plane([0.2, 0.7, -0.4], [812, -455, 301]);
    const turned = moved(mesh, compose(vehicleFromBody, translation([0, 0, -35])));
    expect(sectionAreaMm2(sectionOf(turned, vehicleFromBody))).toBeCloseTo(30 * 50, 6);
    const above = moved(mesh, compose(vehicleFromBody, translation([0, 0, 35])));
    expect(sectionOf(above, vehicleFromBody)).toEqual([]);
    // A plane that touches an edge or a corner encloses no area.
    expect(sectionOf(mesh, plane([1, 1, 0], [15, 25, 0]))).toEqual([]);
    expect(sectionOf(mesh, plane([1, 1, 1], [15, 25, 35]))).toEqual([]);
  });

  it('closes every outline through vertices of round bodies', () => {
    // Planes that contain the axis, and whole rows of vertices.
    for (let k = 0; k < 96; k++) {
      const angle = (2 * Math.PI * k) / 96;
      const regions = sectionOf(TUBE, plane([-Math.sin(angle), Math.cos(angle), 0]));
      expect(sectionAreaMm2(regions), `plane ${k}`).toBeCloseTo(2 * 6 * 60, 6);
    }
    const ball = sphere(50, 64);
    for (let k = 0; k <= 32; k++) {
      const angle = (2 * Math.PI * k) / 64;
      const height = -50 * Math.cos(angle);
      const area = sectionAreaMm2(sectionOf(ball, plane([0, 0, 1], [0, 0, height])));
      expect(area, `plane ${k}`).toBeCloseTo(polygonArea(50 * Math.sin(angle), 64), 6);
    }
  });

  it('integrates to the volume over parallel planes, for random bodies', () => {
    const seed = 20260301;
    const random = mulberry32(seed);
    const body = merged(
      TUBE,
      moved(sphere(15, 48), translation([60, 10, 5])),
      moved(torus(40, 8, 64, 24), translation([0, 0, 80])),
    );
    const volume = signedVolumeMm3(body);
    for (let trial = 0; trial < 6; trial++) {
      const normal = normalize([between(random, -1, 1), between(random, -1, 1), between(random, -1, 1)]);
      // Midpoint rule; the area of a section is continuous and piecewise smooth.
      const [planes, reach] = [1500, 140];
      const step = (2 * reach) / planes;
      let sum = 0;
      for (let k = 0; k < planes; k++) {
        const height = -reach + (k + 0.5) * step;
        sum += step * sectionAreaMm2(sectionOf(body, plane(normal, normalizeTo(normal, height))));
      }
      expect(Math.abs(sum - volume) / volume, `trial ${trial} of seed ${seed}`).toBeLessThan(1e-3);
    }
  });

  it('rejects an open mesh', () => {
    expect(() => sectionOf(withoutTriangle(box(10, 10, 10), 6), plane([0.01, 0, 1]))).toThrow('not closed');
  });
});

function normalizeTo(direction: Vec3, length: number): Vec3 {
  const [x, y, z] = normalize(direction);
  return [x * length, y * length, z * length];
}
