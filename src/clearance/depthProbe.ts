import { closestByOriented, near, pointTriangleDistanceSq } from './closestPoint.ts';
import { insideByOriented } from './inside.ts';
import type { Tree } from './tree.ts';

/** Share of a squared distance within which rounding cannot put a point on the other side. */
const SAME_SIDE = 0.999;

/** A point whose place is known: x y z, how far inside the closed surface it is, and the triangle nearest to it. */
export interface KnownPoint {
  x: number;
  y: number;
  z: number;
  insideMm: number;
  triangle: number;
}

/** Finds how far points are inside a closed surface, whose tree must have oriented boxes. */
export class DepthProbe {
  /** How far the last point is inside, mm; negative outside. */
  insideMm = 0;
  /** The nearest point of the surface, and where its triangle begins in the tree's `corners`. */
  readonly foot = new Float64Array(3);
  triangle = -1;
  /** Points looked at. */
  looks = 0;
  private readonly closed: Tree;

  constructor(closed: Tree) {
    this.closed = closed;
  }

  /** `known`: a point close by, which saves time. */
  look(x: number, y: number, z: number, known: KnownPoint | undefined): void {
    const { closed, foot } = this;
    this.looks++;
    let limitSq = Number.POSITIVE_INFINITY;
    let triangle = -1;
    if (known !== undefined) {
      triangle = known.triangle;
      limitSq = pointTriangleDistanceSq(x, y, z, closed.corners, triangle);
      foot.set(near.point);
    }
    const sq = closestByOriented(closed, x, y, z, limitSq);
    if (near.triangle >= 0) {
      foot.set(near.point);
      triangle = near.triangle;
    }
    this.triangle = triangle;
    const d = Math.sqrt(sq);
    this.insideMm = this.isInside(x, y, z, known) ? d : -d;
  }

  /** The surface does not pass between a known point and a point that is nearer to it than the surface. */
  private isInside(x: number, y: number, z: number, known: KnownPoint | undefined): boolean {
    if (known !== undefined) {
      const dx = x - known.x;
      const dy = y - known.y;
      const dz = z - known.z;
      const { insideMm } = known;
      if (dx * dx + dy * dy + dz * dz < SAME_SIDE * insideMm * insideMm) return insideMm > 0;
    }
    return insideByOriented(this.closed, x, y, z);
  }
}
