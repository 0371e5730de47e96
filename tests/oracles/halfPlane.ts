import { applyPoint, type Rigid } from '../../src/math/rigid.ts';
import type { Vec3 } from '../../src/math/vec.ts';
import type { Mesh } from '../../src/solids/solid.ts';

/** A point relative to an axis: distance from the axis and position along it, mm. */
export type Beside = readonly [radius: number, along: number];
export type Segment = readonly [Beside, Beside];

/** The corners of a mesh in another frame. */
export function pointsIn(mesh: Mesh, frameFromVehicle: Rigid): Vec3[] {
  const points: Vec3[] = [];
  for (let i = 0; i < mesh.positions.length; i += 3) {
    const [x, y, z] = mesh.positions.subarray(i, i + 3);
    points.push(applyPoint(frameFromVehicle, [x, y, z]));
  }
  return points;
}

/** Distance from the y axis, and position along it. */
export const besideY = ([x, y, z]: Vec3): Beside => [Math.hypot(x, z), y];

/** A point in the half plane through the y axis at an angle from z toward x. */
export const atTurn = ([radius, along]: Beside, turnRad: number): Vec3 => [
  radius * Math.sin(turnRad),
  along,
  radius * Math.cos(turnRad),
];

/**
 * The cut of a mesh by the half plane through the y axis at an angle from z toward x: one segment per triangle. With
 * the radius to the right and y up, the inside of a closed outward mesh is on the left of each segment.
 */
export function cutByHalfPlane(mesh: Mesh, frameFromVehicle: Rigid, turnRad: number): Segment[] {
  const [c, s] = [Math.cos(turnRad), Math.sin(turnRad)];
  const points = pointsIn(mesh, frameFromVehicle).map(([x, y, z]): Vec3 => [s * x + c * z, y, c * x - s * z]);
  const segments: Segment[] = [];
  for (let t = 0; t < mesh.triangles.length; t += 3) {
    const corners = [0, 1, 2].map((k) => points[mesh.triangles[t + k]]);
    let into: Beside | undefined;
    let outOf: Beside | undefined;
    corners.forEach((from, k) => {
      const to = corners[(k + 1) % 3];
      if (from[2] < 0 === to[2] < 0) return;
      const f = from[2] / (from[2] - to[2]);
      const crossing: Beside = [from[0] + f * (to[0] - from[0]), from[1] + f * (to[1] - from[1])];
      if (from[2] < 0) into = crossing;
      else outOf = crossing;
    });
    if (into && outOf && into[0] + outOf[0] > 0) segments.push([into, outOf]);
  }
  return segments;
}

/** Distance from a point to the nearest segment; negative if the segments enclose the point. */
export function signedDistanceToCut([radius, along]: Beside, segments: readonly Segment[]): number {
  let inside = false;
  let nearest = Infinity;
  for (const [a, b] of segments) {
    const [dr, dy] = [b[0] - a[0], b[1] - a[1]];
    const lengthSq = dr * dr + dy * dy;
    const at = lengthSq > 0 ? ((radius - a[0]) * dr + (along - a[1]) * dy) / lengthSq : 0;
    const s = Math.min(1, Math.max(0, at));
    nearest = Math.min(nearest, Math.hypot(a[0] + s * dr - radius, a[1] + s * dy - along));
    if (a[1] > along !== b[1] > along && a[0] + ((along - a[1]) / dy) * dr > radius) inside = !inside;
  }
  return inside ? -nearest : nearest;
}

/** Volume swept in a full turn by the area inside the segments: Pappus as a line integral, pi * integral of r^2 dy. */
export const sweptVolumeMm3 = (segments: readonly Segment[]): number =>
  segments.reduce(
    (sum, [[r0, y0], [r1, y1]]) => sum + ((y1 - y0) * (r0 * r0 + r0 * r1 + r1 * r1) * Math.PI) / 3,
    0,
  );
