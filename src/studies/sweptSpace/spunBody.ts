import type { ConvexOutline } from './convexPieces.ts';
import type { SweptBody } from './sweptBody.ts';

/** A convex piece of a profile: corners are radius and y of the body's frame. */
export interface SpunPiece {
  outline: ConvexOutline;
  /** The piece is enlarged by this, square to its surface, mm. */
  growthMm: number;
}

/** Numbers of each side: start, direction, length. */
const SIDE = 5;

/**
 * A body of revolution about the y axis. The signed distance from a convex profile is a convex function of radius and y.
 * A side on the axis is not a surface and is left out. Throws an Error for an outline without area.
 */
export class SpunBody implements SweptBody {
  readonly isSpun = true;
  readonly count: number;
  readonly reachMm: number;
  distanceMm = 0;
  nx = 0;
  ny = 0;
  nz = 0;
  outward = 0;
  private readonly sides: readonly Float64Array[];
  private readonly boxes: Float64Array;
  private readonly growthMm: Float64Array;

  constructor(pieces: readonly SpunPiece[]) {
    this.count = pieces.length;
    this.sides = pieces.map(({ outline }) => sidesOf(outline));
    this.growthMm = Float64Array.from(pieces, ({ growthMm }) => growthMm);
    this.boxes = new Float64Array(4 * pieces.length);
    pieces.forEach(({ outline }, p) => {
      const [radii, ys] = [outline.map(([r]) => r), outline.map(([, y]) => y)];
      this.boxes.set([Math.min(...radii), Math.max(...radii), Math.min(...ys), Math.max(...ys)], 4 * p);
    });
    this.reachMm = Math.max(
      ...pieces.flatMap(({ outline, growthMm }) => outline.map(([r, y]) => Math.hypot(r, y) + growthMm)),
    );
  }

  atLeastMm(piece: number, x: number, y: number, z: number): number {
    const { boxes } = this;
    const r = Math.sqrt(x * x + z * z);
    const at = 4 * piece;
    return (
      Math.max(boxes[at] - r, r - boxes[at + 1], boxes[at + 2] - y, y - boxes[at + 3]) - this.growthMm[piece]
    );
  }

  measure(piece: number, x: number, y: number, z: number): void {
    const sides = this.sides[piece];
    const r = Math.sqrt(x * x + z * z);
    let inside = Number.NEGATIVE_INFINITY;
    let [nr, ns] = [0, 0];
    for (let at = 0; at < sides.length; at += SIDE) {
      const [dr, dy] = [sides[at + 2], sides[at + 3]];
      const out = dy * (r - sides[at]) - dr * (y - sides[at + 1]);
      if (out > inside) {
        inside = out;
        nr = dy;
        ns = -dr;
      }
    }
    let distance = inside;
    // Nearer than that, the direction to the nearest point is lost in rounding, and the side's normal is used.
    if (inside > ON_SURFACE_MM) {
      let leastSq = Number.POSITIVE_INFINITY;
      for (let at = 0; at < sides.length; at += SIDE) {
        const [dr, dy] = [sides[at + 2], sides[at + 3]];
        const [pr, py] = [r - sides[at], y - sides[at + 1]];
        if (dy * pr - dr * py <= 0) continue;
        const along = Math.min(Math.max(dr * pr + dy * py, 0), sides[at + 4]);
        const [toR, toY] = [pr - along * dr, py - along * dy];
        const sq = toR * toR + toY * toY;
        if (sq < leastSq) {
          leastSq = sq;
          nr = toR;
          ns = toY;
        }
      }
      distance = Math.sqrt(leastSq);
      nr /= distance;
      ns /= distance;
    }
    this.distanceMm = distance - this.growthMm[piece];
    const inverse = r > 0 ? 1 / r : 0;
    this.nx = r > 0 ? nr * x * inverse : nr;
    this.ny = ns;
    this.nz = nr * z * inverse;
    this.outward = nr < 0 ? -nr : 0;
  }
}

/** A point is on a side if it is no further outside. */
const ON_SURFACE_MM = 1e-9;
/** A profile this near the axis reaches it. */
const ON_AXIS_MM = 1e-9;

function sidesOf(outline: ConvexOutline): Float64Array {
  const sides = outline.flatMap(([r, y], i) => {
    const [toR, toY] = outline[(i + 1) % outline.length];
    const length = Math.hypot(toR - r, toY - y);
    if (length === 0 || (r <= ON_AXIS_MM && toR <= ON_AXIS_MM)) return [];
    return [r, y, (toR - r) / length, (toY - y) / length, length];
  });
  if (sides.length === 0) throw new Error('a piece of a profile has no area');
  return Float64Array.from(sides);
}
