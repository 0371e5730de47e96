import { closestByOriented, nearestHit, pointTriangleDistanceSq } from './closestPoint.ts';
import { insideByOriented } from './inside.ts';
import type { Tree } from './tree.ts';

/** Share of a squared distance within which rounding cannot move a point to the other side. */
const SAME_SIDE = 0.999;

/** An evaluated point: x y z, its depth inside the closed surface, and the nearest triangle. */
export interface EvaluatedPoint {
  x: number;
  y: number;
  z: number;
  insideMm: number;
  triangle: number;
}

/** Computes the depth of points inside a closed surface. The surface's tree must have oriented boxes. */
export class DepthProbe {
  /** Depth of the last point, mm; negative outside. */
  insideMm = 0;
  /** The nearest point of the surface, and the offset of its triangle in the tree's `corners`. */
  readonly foot = new Float64Array(3);
  triangle = -1;
  /** Number of evaluations. */
  evaluations = 0;
  private readonly closed: Tree;

  constructor(closed: Tree) {
    this.closed = closed;
  }

  /** `nearby`: a nearby evaluated point, which saves time. */
  evaluate(x: number, y: number, z: number, nearby: EvaluatedPoint | undefined): void {
    const { closed, foot } = this;
    this.evaluations++;
    let limitSq = Number.POSITIVE_INFINITY;
    let triangle = -1;
    if (nearby !== undefined) {
      triangle = nearby.triangle;
      limitSq = pointTriangleDistanceSq(x, y, z, closed.corners, triangle);
      foot.set(nearestHit.point);
    }
    const sq = closestByOriented(closed, x, y, z, limitSq);
    if (nearestHit.triangle >= 0) {
      foot.set(nearestHit.point);
      triangle = nearestHit.triangle;
    }
    this.triangle = triangle;
    const d = Math.sqrt(sq);
    this.insideMm = this.isInside(x, y, z, nearby) ? d : -d;
  }

  /** If a point is nearer to a known point than the surface is, both are on the same side of the surface. */
  private isInside(x: number, y: number, z: number, nearby: EvaluatedPoint | undefined): boolean {
    if (nearby !== undefined) {
      const dx = x - nearby.x;
      const dy = y - nearby.y;
      const dz = z - nearby.z;
      const { insideMm } = nearby;
      if (dx * dx + dy * dy + dz * dz < SAME_SIDE * insideMm * insideMm) return insideMm > 0;
    }
    return insideByOriented(this.closed, x, y, z);
  }
}
