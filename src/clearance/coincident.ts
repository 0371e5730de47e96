import { applyPoint, type Rigid } from '../math/rigid.ts';
import { addScaled, cross, length, scale, sub, type Vec3 } from '../math/vec.ts';
import type { Body } from './body.ts';
import { closestOnTree, nearestHit } from './closestPoint.ts';
import { insideTree } from './inside.ts';

/** A point inside both of two bodies that have a piece in common. Points are in the frame of A. */
export interface SharedPoint {
  /** Distance from the nearer surface, mm. */
  depthMm: number;
  /** The nearest point of A's surface, and the point of B's surface nearest to that. */
  pointA: Vec3;
  pointB: Vec3;
}

/** Number of probes below a face. Their depths go from the body's size down to a millionth of it, by halves. */
const PROBES = 20;

/**
 * The deepest common point found of two closed bodies when no point of either surface is inside the other. Such
 * bodies have a piece in common, face on face (the same part entered twice). Probes below the largest face of each
 * piece of A. Undefined if there is no common piece.
 */
export function coincidentPoint(a: Body, b: Body, aFromB: Rigid, bFromA: Rigid): SharedPoint | undefined {
  let deepest: { depthMm: number; pointA: Vec3 } | undefined;
  for (let i = 0; i < a.faces.length; i += 9) {
    const [p, q, r] = [0, 3, 6].map((k): Vec3 => [a.faces[i + k], a.faces[i + k + 1], a.faces[i + k + 2]]);
    const normal = cross(sub(q, p), sub(r, p));
    const size = length(normal);
    if (!(size > 0)) continue;
    const middle = scale([p[0] + q[0] + r[0], p[1] + q[1] + r[1], p[2] + q[2] + r[2]], 1 / 3);
    for (let k = 0; k < PROBES; k++) {
      const inA = addScaled(middle, normal, -(a.whole.radii[0] * 2 ** -k) / size);
      const inB = applyPoint(bFromA, inA);
      if (!insideTree(a.whole, ...inA) || !insideTree(b.whole, ...inB)) continue;
      const fromB = Math.sqrt(closestOnTree(b.whole, ...inB, Number.POSITIVE_INFINITY));
      const fromA = Math.sqrt(closestOnTree(a.whole, ...inA, Number.POSITIVE_INFINITY));
      const depthMm = Math.min(fromA, fromB);
      if (depthMm > (deepest?.depthMm ?? 0)) deepest = { depthMm, pointA: nearestPoint() };
    }
  }
  if (deepest === undefined) return undefined;
  closestOnTree(b.whole, ...applyPoint(bFromA, deepest.pointA), Number.POSITIVE_INFINITY);
  return { ...deepest, pointB: applyPoint(aFromB, nearestPoint()) };
}

/** The nearest point of the last `closestOnTree` call. */
const nearestPoint = (): Vec3 => [nearestHit.point[0], nearestHit.point[1], nearestHit.point[2]];
