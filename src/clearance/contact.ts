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

/** A triangle thinner than this share of its length is left to `nearPart`: rounding turns its sides. */
const SLIVER = 1e-5;

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
    if (!mayReachFurther(i, moved) || isBeyondSide(a.corners, i, moved, sharedMm)) return;
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

/**
 * Whether one triangle lies further than `limitMm` beyond a side or an edge of the other: of many pairs whose boxes meet
 * this shows without a polygon that `nearPart` has nothing of them. A triangle of no area has no sides.
 */
function isBeyondSide(s: Float64Array, i: number, t: Float64Array, limitMm: number): boolean {
  const ux = t[3] - t[0];
  const uy = t[4] - t[1];
  const uz = t[5] - t[2];
  const vx = t[6] - t[0];
  const vy = t[7] - t[1];
  const vz = t[8] - t[2];
  const nx = uy * vz - uz * vy;
  const ny = uz * vx - ux * vz;
  const nz = ux * vy - uy * vx;
  const size = Math.sqrt(nx * nx + ny * ny + nz * nz);
  if (!(size > SLIVER * (ux * ux + uy * uy + uz * uz + vx * vx + vy * vy + vz * vz))) return false;
  /** Whether all corners of s are on the positive side of a plane through a corner of t, further than the limit. */
  const areBeyond = (x: number, y: number, z: number, c: number, length: number): boolean => {
    const beyond = x * t[c] + y * t[c + 1] + z * t[c + 2] + limitMm * length;
    for (let k = i; k < i + 9; k += 3) if (x * s[k] + y * s[k + 1] + z * s[k + 2] <= beyond) return false;
    return true;
  };
  if (areBeyond(nx, ny, nz, 0, size) || areBeyond(-nx, -ny, -nz, 0, size)) return true;
  for (let c = 0; c < 9; c += 3) {
    const d = (c + 3) % 9;
    const ex = t[d] - t[c];
    const ey = t[d + 1] - t[c + 1];
    const ez = t[d + 2] - t[c + 2];
    const ox = ey * nz - ez * ny;
    const oy = ez * nx - ex * nz;
    const oz = ex * ny - ey * nx;
    if (areBeyond(ox, oy, oz, c, Math.sqrt(ox * ox + oy * oy + oz * oz))) return true;
  }
  return false;
}

function triangleAt(corners: Float64Array, i: number): Triangle {
  const corner = (k: number): Vec3 => [corners[i + k], corners[i + k + 1], corners[i + k + 2]];
  return [corner(0), corner(3), corner(6)];
}
