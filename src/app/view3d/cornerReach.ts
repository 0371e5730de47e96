import { shownPoint } from '../../design/side.ts';
import { applyDirection, invert } from '../../math/rigid.ts';
import { dot, type Vec3 } from '../../math/vec.ts';
import type { Carriers } from '../../mechanism/pose.ts';
import { spinAxis } from '../../mechanism/spinAxis.ts';
import type { OpenCorner } from '../state/engine.ts';
import type { Reach } from './frame.ts';

/** Extent of the visible solids along an axis, as posed and shown; a view must contain it. */
export function cornerReach(corner: OpenCorner, carriers: Carriers, hidden: ReadonlySet<string>): Reach {
  const { side } = corner.design.corner;
  const visible = corner.solids.filter((solid) => !hidden.has(solid.id));
  // Chassis parts may reach far beyond the corner, so they count only if nothing else is visible.
  const moving = visible.filter((solid) => solid.carrier !== 'chassis');
  const framed = moving.length > 0 ? moving : visible;
  return (axis) => {
    let [low, high] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
    for (const { mesh, carrier } of framed) {
      // Transforms the axis into the mesh's frame instead of every vertex into the vehicle.
      const posed = carriers[carrier];
      const [x, y, z] = applyDirection(invert(posed), shownPoint(side, axis));
      const from = dot([posed[3], posed[7], posed[11]], shownPoint(side, axis));
      const p = mesh.positions;
      for (let i = 0; i < p.length; i += 3) {
        const along = from + x * p[i] + y * p[i + 1] + z * p[i + 2];
        if (along < low) low = along;
        if (along > high) high = along;
      }
    }
    return { low, high };
  };
}

/** Direction of the wheel's axis, outboard, as posed and shown. */
export const shownSpinAxis = (corner: OpenCorner, carriers: Carriers): Vec3 =>
  shownPoint(
    corner.design.corner.side,
    applyDirection(carriers.upright, spinAxis(corner.design.corner.suspension)),
  );
