import { applyPoint, type Rigid } from '../math/rigid.ts';
import type { Vec3 } from '../math/vec.ts';
import { joinSegments } from './joinSegments.ts';
import { forEachNearPair, roundingAt } from './nearPairs.ts';
import { nearPart, type Triangle } from './nearPart.ts';
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
  const low = [0, 0, 0].fill(Number.POSITIVE_INFINITY);
  const high = [0, 0, 0].fill(Number.NEGATIVE_INFINITY);
  const farther = (point: Vec3): boolean =>
    applyPoint(frameFromA, point).some((x, k) => x - withinMm < low[k] || x + withinMm > high[k]);
  forEachNearPair(a, b, aFromB, withinMm, (i, moved) => {
    // Where faces lie on each other every triangle is near many: most of these pairs reach no further than others.
    if (!triangleAt(a.corners, i).some(farther)) return;
    for (const point of nearPart(triangleAt(a.corners, i), triangleAt(moved, 0), withinMm)) {
      applyPoint(frameFromA, point).forEach((x, k) => {
        low[k] = Math.min(low[k], x - withinMm);
        high[k] = Math.max(high[k], x + withinMm);
      });
    }
  });
  if (low[0] > high[0]) return undefined;
  return { low: [low[0], low[1], low[2]], high: [high[0], high[1], high[2]] };
}

function triangleAt(corners: Float64Array, i: number): Triangle {
  const corner = (k: number): Vec3 => [corners[i + k], corners[i + k + 1], corners[i + k + 2]];
  return [corner(0), corner(3), corner(6)];
}
