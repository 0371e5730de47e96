import { shownPoint } from '../../design/side.ts';
import { applyDirection, applyPoint } from '../../math/rigid.ts';
import type { Vec3 } from '../../math/vec.ts';
import type { Carriers } from '../../mechanism/pose.ts';
import { spinAxis } from '../../mechanism/spinAxis.ts';
import type { OpenCorner } from '../engine.ts';

/** The vertices of the solids that are not hidden, as posed and shown: what a view must hold. */
export function cornerPoints(corner: OpenCorner, carriers: Carriers, hidden: ReadonlySet<string>): Vec3[] {
  const seen = corner.solids.filter((solid) => !hidden.has(solid.id));
  // The chassis may be drawn far beyond the corner: what moves is what matters.
  const moving = seen.filter((solid) => solid.carrier !== 'chassis');
  return (moving.length > 0 ? moving : seen).flatMap(({ mesh: { positions }, carrier }) =>
    Array.from({ length: positions.length / 3 }, (_, v) => {
      const point: Vec3 = [positions[3 * v], positions[3 * v + 1], positions[3 * v + 2]];
      return shownPoint(corner.design.corner.side, applyPoint(carriers[carrier], point));
    }),
  );
}

/** Outboard along the wheel's axis as posed and shown. */
export const shownSpinAxis = (corner: OpenCorner, carriers: Carriers): Vec3 =>
  shownPoint(
    corner.design.corner.side,
    applyDirection(carriers.upright, spinAxis(corner.design.corner.suspension)),
  );
