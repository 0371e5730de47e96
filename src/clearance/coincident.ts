import { applyPoint, type Rigid } from '../math/rigid.ts';
import { addScaled, cross, length, scale, sub, type Vec3 } from '../math/vec.ts';
import type { Body } from './body.ts';
import { closestOnTree, near } from './closestPoint.ts';
import { insideTree } from './inside.ts';

/** A place inside both of two bodies that have a piece in common. Points are in the frame of A. */
export interface SharedPlace {
  /** How far it is from both surfaces, mm. */
  depthMm: number;
  /** The point of A's surface nearest to it, and the point of B's surface nearest to that. */
  pointA: Vec3;
  pointB: Vec3;
}

/** Probes below a face go from its body's size down by halves to a millionth of it. */
const PROBES = 20;

/**
 * The deepest place found that two closed bodies share although no point of either surface lies inside the other: they
 * have then a piece in common, face on face (the same part given twice). Probed below the largest face of each piece of
 * A. Undefined where there is no common piece.
 */
export function coincidentPlace(a: Body, b: Body, aFromB: Rigid, bFromA: Rigid): SharedPlace | undefined {
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

/** The point that `closestOnTree` has just found. */
const nearestPoint = (): Vec3 => [near.point[0], near.point[1], near.point[2]];
