import { STLLoader } from 'three/examples/jsm/loaders/STLLoader.js';
import { describe, expect, it } from 'vitest';
import { stlBinary } from '../../src/report/stl.ts';
import type { Mesh } from '../../src/solids/solid.ts';
import { boxMesh } from './fixture.ts';

/** A tetrahedron with a right corner at the origin: volume a b c / 6. */
const tetrahedron: Mesh = {
  positions: Float64Array.of(0, 0, 0, 30, 0, 0, 0, 40, 0, 0, 0, 50),
  triangles: Uint32Array.of(0, 2, 1, 0, 1, 3, 0, 3, 2, 1, 2, 3),
};

/** Corners, error of the normals and signed volume (by the divergence theorem), read by three's STLLoader. */
function readBack(bytes: Uint8Array<ArrayBuffer>) {
  const geometry = new STLLoader().parse(bytes.buffer);
  const p = geometry.getAttribute('position').array;
  const normals = geometry.getAttribute('normal').array;
  let volume = 0;
  let worstNormal = 0;
  for (let i = 0; i < p.length; i += 9) {
    const [ax, ay, az, bx, by, bz, cx, cy, cz] = p.slice(i, i + 9);
    volume += (ax * (by * cz - bz * cy) + ay * (bz * cx - bx * cz) + az * (bx * cy - by * cx)) / 6;
    const [ux, uy, uz, vx, vy, vz] = [bx - ax, by - ay, bz - az, cx - ax, cy - ay, cz - az];
    const n = [uy * vz - uz * vy, uz * vx - ux * vz, ux * vy - uy * vx];
    const length = Math.hypot(...n);
    n.forEach((value, k) => {
      worstNormal = Math.max(worstNormal, Math.abs(value / length - normals[i + k]));
    });
  }
  return { points: Array.from(p), volume, worstNormal };
}

// Binary STL: 80 bytes of header that do not begin with "solid", uint32 count, 50 bytes a facet, little-endian,
// normals outward by the right-hand rule (Stereolithography interface specification, 3D Systems, 1988; from memory).
describe.each([
  ['tetrahedron', tetrahedron, (30 * 40 * 50) / 6],
  ['box', boxMesh([-1.5, 600.25, 10], [8.5, 620.25, 40]), 10 * 20 * 30],
] as const)('binary STL of a %s', (_, mesh, volumeMm3) => {
  const count = mesh.triangles.length / 3;

  it.each(['left', 'right'] as const)('%s: size, count, volume and normals read back', (side) => {
    const bytes = stlBinary(mesh, side);
    expect(bytes.length).toBe(84 + 50 * count);
    expect(new DataView(bytes.buffer).getUint32(80, true)).toBe(count);
    expect(new TextDecoder().decode(bytes.subarray(0, 5)).toLowerCase()).not.toBe('solid');
    const { points, volume, worstNormal } = readBack(bytes);
    expect(points).toHaveLength(9 * count);
    expect(volume).toBeCloseTo(volumeMm3, 3);
    expect(worstNormal).toBeLessThan(1e-6);
  });

  it('right is the mirror image of left in the plane Y = 0', () => {
    const corners = (side: 'left' | 'right', mirror: 1 | -1) => {
      const { points } = readBack(stlBinary(mesh, side));
      const each = Array.from({ length: points.length / 3 }, (_, i) =>
        [points[3 * i], mirror * points[3 * i + 1] + 0, points[3 * i + 2]].join(' '),
      );
      return each.sort();
    };
    expect(corners('right', -1)).toEqual(corners('left', 1));
  });
});
