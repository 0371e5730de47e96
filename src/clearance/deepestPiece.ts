import { applyPoint, type Rigid } from '../math/rigid.ts';
import type { Vec3 } from '../math/vec.ts';
import type { Body } from './body.ts';
import { near } from './closestPoint.ts';
import { depthAt } from './depth.ts';

/** A point inside a closed body, and the nearest of its surface, both in its frame. */
export interface PieceInside {
  depthMm: number;
  point: Vec3;
  nearest: Vec3;
}

/** Of the points that stand for the pieces of a body the one deepest inside `closed`; undefined where none is inside. */
export function deepestPiece(
  pieces: Float64Array,
  closed: Body,
  closedFromBody: Rigid,
): PieceInside | undefined {
  let deepest: PieceInside | undefined;
  for (let i = 0; i < pieces.length; i += 3) {
    const point = applyPoint(closedFromBody, [pieces[i], pieces[i + 1], pieces[i + 2]]);
    const depthMm = depthAt(closed.whole, ...point);
    if (!(depthMm > (deepest?.depthMm ?? 0))) continue;
    const [x, y, z] = near.point;
    deepest = { depthMm, point, nearest: [x, y, z] };
  }
  return deepest;
}
