import type { Rigid } from '../math/rigid.ts';
import type { Vec3 } from '../math/vec.ts';
import { type Contact, joinSegments } from './joinSegments.ts';
import { forEachNearPair, roundingAt } from './nearPairs.ts';
import { clipped, nearPart } from './nearPart.ts';
import type { Tree } from './tree.ts';
import { crossing, crossTriangles } from './triangleCrossing.ts';

/**
 * The contact curve of two surfaces: the intersections of all pairs of triangles, joined into lines. There are no
 * lines if the surfaces do not meet: bodies apart, or one inside the other. Exact for the meshes except for rounding.
 * Where the true bodies graze, their curve can be far from it; `contactReach` bounds that.
 */
export function contactOf(a: Tree, b: Tree, aFromB: Rigid): Contact {
  const segments: number[] = [];
  const slack = roundingAt(a, b, aFromB);
  forEachNearPair(a, b, aFromB, slack, (i, moved) => {
    if (crossTriangles(a.corners, i, moved, 0, slack)) segments.push(...crossing);
  });
  return joinSegments(segments);
}

/** More than the rounding and slack that `nearPart` adds to a box, mm. */
const SHARED_SLACK_MM = 1e-5;

/** Least and greatest x, y and z, mm. */
export interface Extent {
  low: Vec3;
  high: Vec3;
}

/**
 * Extent of the possible contact of two bodies along the axes of another frame. `errorMm`: greatest distance of both
 * true surfaces from these meshes, summed. Undefined if they cannot meet. A point of contact is near a triangle of A
 * and near a triangle of B, so these two are within the error of each other. The point is therefore within the error
 * of the part of one triangle that is within the error of the other.
 */
export function contactReach(
  a: Tree,
  b: Tree,
  aFromB: Rigid,
  errorMm: number,
  frameFromA: Rigid,
): Extent | undefined {
  const withinMm = errorMm + roundingAt(a, b, aFromB);
  // More than the distance by which `nearPart` extends the box of the other triangle.
  const sharedMm = withinMm + SHARED_SLACK_MM;
  const low = [0, 0, 0].fill(Number.POSITIVE_INFINITY);
  const high = [0, 0, 0].fill(Number.NEGATIVE_INFINITY);
  const t = frameFromA;
  const middle = new Float64Array(3);
  const half = new Float64Array(3);
  /** Whether the common part of the boxes of two triangles reaches beyond the extent found so far. */
  const mayReachFurther = (i: number, moved: Float64Array): boolean => {
    const { corners } = a;
    for (let k = 0; k < 3; k++) {
      const from = Math.max(
        Math.min(corners[i + k], corners[i + 3 + k], corners[i + 6 + k]),
        Math.min(moved[k], moved[3 + k], moved[6 + k]) - sharedMm,
      );
      const to = Math.min(
        Math.max(corners[i + k], corners[i + 3 + k], corners[i + 6 + k]),
        Math.max(moved[k], moved[3 + k], moved[6 + k]) + sharedMm,
      );
      if (from > to) return false;
      middle[k] = (from + to) / 2;
      half[k] = (to - from) / 2;
    }
    for (let k = 0; k < 3; k++) {
      const r = 4 * k;
      const x = t[r] * middle[0] + t[r + 1] * middle[1] + t[r + 2] * middle[2] + t[r + 3];
      const reach =
        Math.abs(t[r]) * half[0] + Math.abs(t[r + 1]) * half[1] + Math.abs(t[r + 2]) * half[2] + withinMm;
      if (x - reach < low[k] || x + reach > high[k]) return true;
    }
    return false;
  };
  forEachNearPair(a, b, aFromB, withinMm, (i, moved) => {
    // Where faces coincide, every triangle is near many others, and most of these pairs do not extend the result.
    if (!mayReachFurther(i, moved)) return;
    const count = nearPart(a.corners, i, moved, withinMm);
    for (let c = 0; c < 3 * count; c += 3) {
      for (let k = 0; k < 3; k++) {
        const r = 4 * k;
        const x = t[r] * clipped[c] + t[r + 1] * clipped[c + 1] + t[r + 2] * clipped[c + 2] + t[r + 3];
        low[k] = Math.min(low[k], x - withinMm);
        high[k] = Math.max(high[k], x + withinMm);
      }
    }
  });
  if (low[0] > high[0]) return undefined;
  return { low: [low[0], low[1], low[2]], high: [high[0], high[1], high[2]] };
}
