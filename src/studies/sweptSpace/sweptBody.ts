/**
 * A body to sweep, in its own frame: a union of pieces. `measure` computes the signed distance of a point from one piece
 * and leaves it in the fields. The signed distance of each piece is a convex function of some coordinates of the point:
 * of x, y and z, or of y and the radius r = |(x, z)|, which is itself a convex function of x and z.
 */
export interface SweptBody {
  /** Whether the signed distance depends on y and r only. */
  readonly isSpun: boolean;
  /** Number of pieces. */
  readonly count: number;
  /** All points of the body are this near the origin of its frame. */
  readonly reachMm: number;
  /** Signed distance of the measured point, less the growth of the piece, mm; negative inside. */
  distanceMm: number;
  /** Gradient of the signed distance at the measured point. */
  nx: number;
  ny: number;
  nz: number;
  /** Minus the derivative of the signed distance by r if that is negative, else 0: the piece is outside of the point. */
  outward: number;
  measure(piece: number, x: number, y: number, z: number): void;
  /** A lower bound of the signed distance that takes less time. */
  atLeastMm(piece: number, x: number, y: number, z: number): number;
}
