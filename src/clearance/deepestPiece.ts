import { applyPoint, type Rigid } from '../math/rigid.ts';
import type { Vec3 } from '../math/vec.ts';
import type { Body } from './body.ts';
import { nearestHit } from './closestPoint.ts';
import { depthAt } from './depth.ts';

/** A point inside a closed body and the nearest point of that body's surface, in the body's frame. */
export interface PieceInside {
  depthMm: number;
  point: Vec3;
  nearest: Vec3;
}

/** The deepest of a body's piece points inside `closed`; undefined if none is inside. */
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
    const [x, y, z] = nearestHit.point;
    deepest = { depthMm, point, nearest: [x, y, z] };
  }
  return deepest;
}
