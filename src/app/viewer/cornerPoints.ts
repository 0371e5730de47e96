import { shownPoint } from '../../design/side.ts';
import { applyDirection, applyPoint } from '../../math/rigid.ts';
import type { Vec3 } from '../../math/vec.ts';
import type { Carriers } from '../../mechanism/pose.ts';
import { spinAxis } from '../../mechanism/spinAxis.ts';
import type { OpenCorner } from '../engine.ts';

/** Corners of the box round each solid's mesh as posed, as shown, of those not hidden; what a view must hold. */
export function cornerPoints(corner: OpenCorner, carriers: Carriers, hidden: ReadonlySet<string>): Vec3[] {
  const seen = corner.solids.filter((solid) => !hidden.has(solid.id));
  // The chassis may be drawn far beyond the corner: what moves is what matters.
  const moving = seen.filter((solid) => solid.carrier !== 'chassis');
  return (moving.length > 0 ? moving : seen).flatMap((solid) => {
    const low = [Infinity, Infinity, Infinity];
    const high = [-Infinity, -Infinity, -Infinity];
    solid.mesh.positions.forEach((value, i) => {
      low[i % 3] = Math.min(low[i % 3], value);
      high[i % 3] = Math.max(high[i % 3], value);
    });
    return Array.from({ length: 8 }, (_, i) => {
      const at = (k: number) => (i & (1 << k) ? high[k] : low[k]);
      return shownPoint(
        corner.design.corner.side,
        applyPoint(carriers[solid.carrier], [at(0), at(1), at(2)]),
      );
    });
  });
}

/** Outboard along the wheel's axis as posed and shown. */
export const shownSpinAxis = (corner: OpenCorner, carriers: Carriers): Vec3 =>
  shownPoint(
    corner.design.corner.side,
    applyDirection(carriers.upright, spinAxis(corner.design.corner.suspension)),
  );
