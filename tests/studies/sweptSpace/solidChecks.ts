import type { Vec3 } from '../../../src/math/vec.ts';
import type { Mesh } from '../../../src/solids/solid.ts';

/** How often a closed outward surface goes round a point: the sum of the solid angles of its triangles, rounded. */
export function goesRound({ positions, triangles }: Mesh, [x, y, z]: Vec3): number {
  let sum = 0;
  for (let i = 0; i < triangles.length; i += 3) {
    const [a, b, c] = [3 * triangles[i], 3 * triangles[i + 1], 3 * triangles[i + 2]];
    const [ax, ay, az] = [positions[a] - x, positions[a + 1] - y, positions[a + 2] - z];
    const [bx, by, bz] = [positions[b] - x, positions[b + 1] - y, positions[b + 2] - z];
    const [cx, cy, cz] = [positions[c] - x, positions[c + 1] - y, positions[c + 2] - z];
    const [la, lb, lc] = [Math.hypot(ax, ay, az), Math.hypot(bx, by, bz), Math.hypot(cx, cy, cz)];
    const triple = ax * (by * cz - bz * cy) + ay * (bz * cx - bx * cz) + az * (bx * cy - by * cx);
    sum +=
      2 *
      Math.atan2(
        triple,
        la * lb * lc +
          (ax * bx + ay * by + az * bz) * lc +
          (bx * cx + by * cy + bz * cz) * la +
          (cx * ax + cy * ay + cz * az) * lb,
      );
  }
  return Math.round(sum / (4 * Math.PI));
}

/** Area of a surface, mm2. */
export function surfaceArea({ positions: p, triangles }: Mesh): number {
  let sum = 0;
  for (let i = 0; i < triangles.length; i += 3) {
    const [a, b, c] = [3 * triangles[i], 3 * triangles[i + 1], 3 * triangles[i + 2]];
    const [ux, uy, uz] = [p[b] - p[a], p[b + 1] - p[a + 1], p[b + 2] - p[a + 2]];
    const [vx, vy, vz] = [p[c] - p[a], p[c + 1] - p[a + 1], p[c + 2] - p[a + 2]];
    sum += Math.hypot(uy * vz - uz * vy, uz * vx - ux * vz, ux * vy - uy * vx) / 2;
  }
  return sum;
}
