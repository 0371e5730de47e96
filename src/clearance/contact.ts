import type { Rigid } from '../math/rigid.ts';
import type { Vec3 } from '../math/vec.ts';
import { joinSegments } from './joinSegments.ts';
import { forEachNearPair, roundingAt } from './nearPairs.ts';
import { nearPart, part } from './nearPart.ts';
import type { Tree } from './tree.ts';
import { crossing, crossTriangles } from './triangleCrossing.ts';

/**
 * Where two surfaces meet at a pose: lines in the frame of A. A line that closes ends where it began; one that does not
 * ends where a zone was cut away, or where several meet; where surfaces touch at a point only, a line is that point.
 */
export interface Contact {
  lines: readonly (readonly Vec3[])[];
  lengthMm: number;
}

/**
 * The contact curve of two surfaces: all that any two of their triangles have in common, found through both trees and
 * joined. No lines where the surfaces do not meet: apart, or one inside the other. Exact for the meshes but for
 * rounding; the curve of the true bodies is no simple distance from it where they graze, and `contactReach` bounds it.
 */
export function contactOf(a: Tree, b: Tree, aFromB: Rigid): Contact {
  const segments: number[] = [];
  const slack = roundingAt(a, b, aFromB);
  forEachNearPair(a, b, aFromB, slack, (i, moved) => {
    if (crossTriangles(a.corners, i, moved, 0, slack)) segments.push(...crossing);
  });
  return joinSegments(segments);
}

/** Above what rounding and `nearPart` add to a box, mm. */
const SHARED_SLACK_MM = 1e-5;

/** Least and greatest x, y and z, mm. */
export interface Extent {
  low: Vec3;
  high: Vec3;
}

/**
 * How far contact of two bodies can reach along the axes of another frame, where the surfaces of the bodies are no
 * further than `errorMm` from these, both together; undefined where they cannot meet. A point of contact is near a
 * triangle of A and near one of B, and these are then as near each other: so it lies no further than the error from
 * what of the one triangle is within the error of the other.
 */
export function contactReach(
  a: Tree,
  b: Tree,
  aFromB: Rigid,
  errorMm: number,
  frameFromA: Rigid,
): Extent | undefined {
  const withinMm = errorMm + roundingAt(a, b, aFromB);
  // As far as `nearPart` keeps points beyond the box of the other triangle, and more.
  const sharedMm = withinMm + SHARED_SLACK_MM;
  const low = [0, 0, 0].fill(Number.POSITIVE_INFINITY);
  const high = [0, 0, 0].fill(Number.NEGATIVE_INFINITY);
  const t = frameFromA;
  const middle = new Float64Array(3);
  const half = new Float64Array(3);
  /** Whether what the boxes of two triangles share reaches further than what is found so far. */
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
    // Where faces lie on each other every triangle is near many: most of these pairs reach no further than others.
    if (!mayReachFurther(i, moved)) return;
    const count = nearPart(a.corners, i, moved, withinMm);
    for (let c = 0; c < 3 * count; c += 3) {
      for (let k = 0; k < 3; k++) {
        const r = 4 * k;
        const x = t[r] * part[c] + t[r + 1] * part[c + 1] + t[r + 2] * part[c + 2] + t[r + 3];
        low[k] = Math.min(low[k], x - withinMm);
        high[k] = Math.max(high[k], x + withinMm);
      }
    }
  });
  if (low[0] > high[0]) return undefined;
  return { low: [low[0], low[1], low[2]], high: [high[0], high[1], high[2]] };
}
