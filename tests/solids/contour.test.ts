import { describe, expect, it } from 'vitest';
import { dot, normalize, type Vec3 } from '../../src/math/vec.ts';
import { contourOf, edgesOf, silhouetteOf } from '../../src/solids/contour.ts';
import type { Mesh } from '../../src/solids/solid.ts';
import { between, mulberry32 } from '../oracles/random.ts';
import { box, torus } from '../oracles/shapes.ts';

const drawnOf = (mesh: Mesh, eye: Vec3): Vec3[] => {
  const edges = edgesOf(mesh);
  return [...contourOf(edges, eye)].flatMap((edge) =>
    [0, 1].map((end): Vec3 => {
      const v = 3 * edges.vertices[2 * edge + end];
      return [mesh.positions[v], mesh.positions[v + 1], mesh.positions[v + 2]];
    }),
  );
};

describe('the contour of a mesh', () => {
  it('is the four edges of a box viewed square to a face, and none behind it', () => {
    const ends = drawnOf(box(20, 30, 40), [0, 0, 1]);
    expect(ends).toHaveLength(8);
    for (const [x, y, z] of ends) expect([Math.abs(x), Math.abs(y), z]).toEqual([10, 15, 20]);
  });

  it('is the nine visible edges of a box viewed from a corner', () => {
    expect(drawnOf(box(20, 30, 40), normalize([1, 2, 3]))).toHaveLength(18);
  });

  it('reaches the outer and the inner radius of a torus viewed along its axis', () => {
    const radii = drawnOf(torus(100, 10, 72, 24), [0, 0, 1]).map(([x, y]) => Math.hypot(x, y));
    expect(Math.max(...radii)).toBeCloseTo(110, 9);
    expect(Math.min(...radii)).toBeCloseTo(90, 9);
  });

  it.each([1, 2, 3, 4, 5, 6, 7, 8])(
    'reaches as far as the mesh in every direction on the screen, seed %i',
    (seed) => {
      const random = mulberry32(seed);
      const direction = () =>
        normalize([between(random, -1, 1), between(random, -1, 1), between(random, -1, 1)]);
      const mesh = torus(between(random, 30, 60), between(random, 5, 20), 40, 16);
      const eye = direction();
      const ends = drawnOf(mesh, eye);
      for (let k = 0; k < 20; k++) {
        const any = direction();
        const off = dot(any, eye);
        const along = normalize([any[0] - off * eye[0], any[1] - off * eye[1], any[2] - off * eye[2]]);
        const p = mesh.positions;
        let most = Number.NEGATIVE_INFINITY;
        for (let i = 0; i < p.length; i += 3) most = Math.max(most, dot([p[i], p[i + 1], p[i + 2]], along));
        expect(Math.max(...ends.map((end) => dot(end, along)))).toBeCloseTo(most, 9);
      }
    },
  );
});

describe('the silhouette of a mesh', () => {
  /** Area that the loops enclose, viewed along Z; counted once for each time that they wind around it. */
  const areaAlongZ = (mesh: Mesh): number =>
    silhouetteOf(edgesOf(mesh), [0, 0, 1]).reduce((sum, loop) => {
      const at = (i: number) => 3 * loop[i % loop.length];
      const p = mesh.positions;
      return loop.reduce(
        (part, _, i) => part + (p[at(i)] * p[at(i + 1) + 1] - p[at(i + 1)] * p[at(i) + 1]) / 2,
        sum,
      );
    }, 0);

  it('is the face of a box, and the ring of a torus', () => {
    expect(silhouetteOf(edgesOf(box(20, 30, 40)), [0, 0, 1]).map((loop) => loop.length)).toEqual([4]);
    expect(areaAlongZ(box(20, 30, 40))).toBeCloseTo(600, 9);
    const ring = torus(50, 10, 96, 48);
    // Inscribed polygons: a little less than the circles of radius 60 and 40.
    const expected = Math.PI * (60 ** 2 - 40 ** 2);
    expect(areaAlongZ(ring)).toBeGreaterThan(0.99 * expected);
    expect(areaAlongZ(ring)).toBeLessThan(1.01 * expected);
  });

  it('winds as often as faces are toward the eye, at random eyes', () => {
    const random = mulberry32(5);
    const mesh = torus(50, 10, 24, 12);
    const edges = edgesOf(mesh);
    for (let k = 0; k < 20; k++) {
      const eye = normalize([between(random, -1, 1), between(random, -1, 1), between(random, -1, 1)]);
      // The area of all faces toward the eye, projected, is what the loops enclose with their windings.
      const right = normalize([-eye[1], eye[0], 0]);
      const up: Vec3 = [
        eye[1] * right[2] - eye[2] * right[1],
        eye[2] * right[0] - eye[0] * right[2],
        eye[0] * right[1] - eye[1] * right[0],
      ];
      const point = (v: number): Vec3 => [0, 1, 2].map((i) => mesh.positions[3 * v + i]) as never;
      const flat = (v: number) => [dot(point(v), right), dot(point(v), up)];
      const crossed = (a: number[], b: number[]) => (a[0] * b[1] - a[1] * b[0]) / 2;
      const enclosed = silhouetteOf(edges, eye).reduce(
        (sum, loop) =>
          loop.reduce((part, v, i) => part + crossed(flat(v), flat(loop[(i + 1) % loop.length])), sum),
        0,
      );
      let facing = 0;
      for (let t = 0; t < mesh.triangles.length; t += 3) {
        const [a, b, c] = [0, 1, 2].map((i) => flat(mesh.triangles[t + i]));
        const area = crossed(a, b) + crossed(b, c) + crossed(c, a);
        if (area > 0) facing += area;
      }
      expect(Math.abs(enclosed - facing), `seed 5, case ${k}`).toBeLessThan(1e-6 * facing);
    }
  });
});
