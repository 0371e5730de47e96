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

/** Least and greatest x, y and z of a contact in some frame, mm. */
export interface Extent {
  low: Vec3;
  high: Vec3;
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

/** How far a contact curve reaches along the axes of `frameFromA`'s frame; undefined for no contact. */
export function extentOf({ lines }: Contact, frameFromA: Rigid): Extent | undefined {
  const extent = new Reach(frameFromA);
  for (const line of lines) for (const point of line) extent.add(point);
  return extent.taken();
}

/**
 * How far contact of two bodies can reach at most whose surfaces are no further than `errorMm` from these, both
 * together; undefined where they cannot meet. A point of contact is near a triangle of A and near one of B, and these
 * are then as near each other: so it lies no further than the error from what of the one triangle is within the error
 * of the other.
 */
export function contactReach(
  a: Tree,
  b: Tree,
  aFromB: Rigid,
  errorMm: number,
  frameFromA: Rigid,
): Extent | undefined {
  const withinMm = errorMm + roundingAt(a, b, aFromB);
  const reach = new Reach(frameFromA);
  forEachNearPair(a, b, aFromB, withinMm, (i, moved) => {
    for (const point of nearPart(triangleAt(a.corners, i), triangleAt(moved, 0), withinMm)) reach.add(point);
  });
  return reach.taken(withinMm);
}

/** Least and greatest coordinates of points of A in another frame. */
class Reach {
  private readonly low: [number, number, number] = [
    Number.POSITIVE_INFINITY,
    Number.POSITIVE_INFINITY,
    Number.POSITIVE_INFINITY,
  ];
  private readonly high: [number, number, number] = [
    Number.NEGATIVE_INFINITY,
    Number.NEGATIVE_INFINITY,
    Number.NEGATIVE_INFINITY,
  ];
  private readonly frameFromA: Rigid;
  constructor(frameFromA: Rigid) {
    this.frameFromA = frameFromA;
  }
  add(point: Vec3): void {
    applyPoint(this.frameFromA, point).forEach((value, k) => {
      this.low[k] = Math.min(this.low[k], value);
      this.high[k] = Math.max(this.high[k], value);
    });
  }
  /** Widened by that much; undefined where there was no point. */
  taken(widerMm = 0): Extent | undefined {
    if (this.low[0] > this.high[0]) return undefined;
    const [low, high] = [this.low, this.high];
    return {
      low: [low[0] - widerMm, low[1] - widerMm, low[2] - widerMm],
      high: [high[0] + widerMm, high[1] + widerMm, high[2] + widerMm],
    };
  }
}

function triangleAt(corners: Float64Array, i: number): Triangle {
  const corner = (k: number): Vec3 => [corners[i + k], corners[i + k + 1], corners[i + k + 2]];
  return [corner(0), corner(3), corner(6)];
}
