import { describe, expect, it } from 'vitest';
import { contourOf, edgesOf } from '../../../../src/app/tools/outlines/contour.ts';
import { dot, normalize, type Vec3 } from '../../../../src/math/vec.ts';
import type { Mesh } from '../../../../src/solids/solid.ts';
import { between, mulberry32 } from '../../../oracles/random.ts';
import { box, torus } from '../../../oracles/shapes.ts';

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
