import { applyPoint, type Rigid } from '../math/rigid.ts';
import { addScaled, cross, length, scale, sub, type Vec3 } from '../math/vec.ts';
import type { Body } from './body.ts';
import { closestOnTree, near } from './closestPoint.ts';
import { insideTree } from './inside.ts';

/** Where `coincidentDepthMm` found its depth, in the frame of A. */
export const sharedPoint = { inside: new Float64Array(3), nearest: new Float64Array(3) };

/** Probes below a face go from its body's size down by halves to a millionth of it. */
const PROBES = 20;

/**
 * Depth of a point that two closed bodies share although no point of either surface lies inside the other: they have
 * then a piece in common, face on face (the same part given twice). Probed below the largest face of each piece of A.
 * The answer is how far the deepest probe is from both surfaces, mm; 0 where there is no common piece.
 */
export function coincidentDepthMm(a: Body, b: Body, aFromB: Rigid, bFromA: Rigid): number {
  let depthMm = 0;
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
      const fromA = Math.sqrt(closestOnTree(a.whole, ...inA, Number.POSITIVE_INFINITY));
      const fromB = Math.sqrt(closestOnTree(b.whole, ...inB, Number.POSITIVE_INFINITY));
      if (Math.min(fromA, fromB) <= depthMm) continue;
      depthMm = Math.min(fromA, fromB);
      const [x, y, z] = near.point;
      sharedPoint.inside.set(inA);
      sharedPoint.nearest.set(applyPoint(aFromB, [x, y, z]));
    }
  }
  return depthMm;
}
