import { BufferAttribute, BufferGeometry, EdgesGeometry } from 'three';
import { describe, expect, it } from 'vitest';
import { drawnMesh } from '../../../../src/app/workers/drawing/drawnMesh.ts';
import type { Mesh } from '../../../../src/solids/solid.ts';

/** A prism about Z, radius 10, from z = 0 to 5. */
function prism(sides: number): Mesh {
  const positions: number[] = [];
  const triangles: number[] = [];
  for (let i = 0; i < sides; i++) {
    const angle = (2 * Math.PI * i) / sides;
    for (const z of [0, 5]) positions.push(10 * Math.cos(angle), 10 * Math.sin(angle), z);
    const [a, b] = [2 * i, 2 * ((i + 1) % sides)];
    triangles.push(a, b, b + 1, a, b + 1, a + 1);
    if (i > 0 && i < sides - 1) triangles.push(0, b, a, 1, a + 1, b + 1);
  }
  return { positions: Float64Array.from(positions), triangles: Uint32Array.from(triangles) };
}

function geometryOf(mesh: Mesh): BufferGeometry {
  const geometry = new BufferGeometry();
  geometry.setAttribute('position', new BufferAttribute(Float32Array.from(mesh.positions), 3));
  geometry.setIndex([...mesh.triangles]);
  return geometry;
}

describe('a mesh made ready to draw', () => {
  it('has a point for each corner of each face of a box, and none twice', () => {
    const box = prism(4);
    const { positions, normals, triangles } = drawnMesh(box);
    expect(positions).toHaveLength(24 * 3);
    const points = Array.from({ length: 24 }, (_, i) =>
      [...positions.subarray(3 * i, 3 * i + 3), ...normals.subarray(3 * i, 3 * i + 3)].join(' '),
    );
    expect(new Set(points).size).toBe(24);
    const place = ({ positions: p }: { positions: ArrayLike<number> }, v: number) =>
      [0, 1, 2].map((k) => Math.fround(p[3 * v + k]));
    expect([...triangles].map((v) => place({ positions }, v))).toEqual(
      [...box.triangles].map((v) => place(box, v)),
    );
  });

  it('of a box has its twelve edges and flat faces', () => {
    const { edges, normals, positions } = drawnMesh(prism(4));
    expect(edges).toHaveLength(12 * 6);
    for (let i = 0; i < normals.length; i += 3) {
      // A face normal of this box lies along Z or halfway between X and Y.
      const [x, y, z] = normals.subarray(i, i + 3);
      expect(Math.hypot(x, y, z)).toBeCloseTo(1, 6);
      if (Math.abs(z) < 0.5) expect(Math.abs(x)).toBeCloseTo(Math.SQRT1_2, 6);
      else expect(Math.abs(z)).toBeCloseTo(1, 6);
    }
    expect(positions).toHaveLength(normals.length);
  });

  it('of a fine cylinder is smooth round and sharp at its rims', () => {
    const { normals, positions, edges } = drawnMesh(prism(48));
    expect(edges).toHaveLength(2 * 48 * 6);
    for (let i = 0; i < normals.length; i += 3) {
      if (Math.abs(normals[i + 2]) > 0.5) continue;
      // Radial, as the true surface: the weights of a corner's triangles lean by less than half a facet.
      const cos = (normals[i] * positions[i] + normals[i + 1] * positions[i + 1]) / 10;
      expect(cos).toBeGreaterThan(Math.cos(Math.PI / 48));
    }
  });

  it.each([3, 5, 8, 12, 13, 24])('of a prism of %i sides has the edges that three.js finds', (sides) => {
    const theirs = new EdgesGeometry(geometryOf(prism(sides)), 28).getAttribute('position');
    expect(drawnMesh(prism(sides)).edges).toHaveLength(theirs.count * 3);
  });

  it('draws a face of no area without a normal that is not a number', () => {
    const mesh = prism(4);
    const flat = { ...mesh, triangles: Uint32Array.from([...mesh.triangles, 0, 2, 2]) };
    expect(drawnMesh(flat).normals.every(Number.isFinite)).toBe(true);
  });
});
