import { shownPoint } from '../../design/side.ts';
import { applyDirection, invert } from '../../math/rigid.ts';
import { dot, type Vec3 } from '../../math/vec.ts';
import type { Carriers } from '../../mechanism/pose.ts';
import { spinAxis } from '../../mechanism/spinAxis.ts';
import type { OpenCorner } from '../engine.ts';
import type { Reach } from './frame.ts';

/** How far the solids that are not hidden reach along an axis, as posed and shown: what a view must hold. */
export function cornerReach(corner: OpenCorner, carriers: Carriers, hidden: ReadonlySet<string>): Reach {
  const { side } = corner.design.corner;
  const seen = corner.solids.filter((solid) => !hidden.has(solid.id));
  // The chassis may be drawn far beyond the corner: what moves is what matters.
  const moving = seen.filter((solid) => solid.carrier !== 'chassis');
  const held = moving.length > 0 ? moving : seen;
  return (axis) => {
    let [low, high] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
    for (const { mesh, carrier } of held) {
      // The axis is brought to the mesh once, in place of every vertex to the axis.
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

/** Outboard along the wheel's axis as posed and shown. */
export const shownSpinAxis = (corner: OpenCorner, carriers: Carriers): Vec3 =>
  shownPoint(
    corner.design.corner.side,
    applyDirection(carriers.upright, spinAxis(corner.design.corner.suspension)),
  );
