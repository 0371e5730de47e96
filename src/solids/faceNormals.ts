import type { Mesh } from './solid.ts';

/** Unit normals of the faces (x y z each) and twice their areas. A face without area has normal 0. */
export function faceNormals({ positions: p, triangles }: Mesh): { unit: Float64Array; weight: Float64Array } {
  const count = triangles.length / 3;
  const unit = new Float64Array(3 * count);
  const weight = new Float64Array(count);
  for (let f = 0; f < count; f++) {
    const a = 3 * triangles[3 * f];
    const b = 3 * triangles[3 * f + 1];
    const c = 3 * triangles[3 * f + 2];
    const [ux, uy, uz] = [p[b] - p[a], p[b + 1] - p[a + 1], p[b + 2] - p[a + 2]];
    const [vx, vy, vz] = [p[c] - p[a], p[c + 1] - p[a + 1], p[c + 2] - p[a + 2]];
    const [x, y, z] = [uy * vz - uz * vy, uz * vx - ux * vz, ux * vy - uy * vx];
    const l = Math.hypot(x, y, z);
    weight[f] = l;
    if (l > 0) unit.set([x / l, y / l, z / l], 3 * f);
  }
  return { unit, weight };
}
