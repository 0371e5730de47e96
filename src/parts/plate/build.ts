import type { Entry } from '../../design/schema.ts';
import { fromAxes, type Rigid } from '../../math/rigid.ts';
import { addScaled, cross, dot, length, normalize, sub, type Vec3 } from '../../math/vec.ts';
import type { Builder } from '../../solids/build.ts';
import { outlineCentre, outlineNormal } from '../../solids/outline.ts';
import { placed } from '../../solids/place.ts';
import { outlineFault, type Point2 } from '../../solids/simplePolygon.ts';

/** Greatest distance of a corner from the common plane, mm: below the error of any measurement. No source. */
const OUT_OF_PLANE_MM = 0.05;

/** A flat plate: its outline, extruded by the thickness. Throws as `plateFace` does. */
export const buildPlate: Builder<Entry<'plate'>> = (entry, { modeller }) => {
  const { id, carrier, thickness } = entry;
  const { corners, vehicleFromFace, offPlaneMm } = plateFace(entry);
  const solid = modeller.Manifold.extrude([corners.map(([u, v]) => [u, v])], thickness);
  return [{ id, kind: 'plate', carrier, attachments: [], ...placed(solid, vehicleFromFace, offPlaneMm) }];
};

/** The face of a plate that its outline gives. */
export interface PlateFace {
  /** In the face, anticlockwise viewed from +z. */
  corners: readonly Point2[];
  /** z points into the thickness, x is as nearly along the longest side as the plane allows. */
  vehicleFromFace: Rigid;
  /** Greatest distance of a corner from the plane, mm. */
  offPlaneMm: number;
}

/**
 * The face of a plate; the thickness is on the side from which its corners run anticlockwise. Throws an Error that names
 * the corner off the plane, or the sides that cross or touch each other.
 */
export function plateFace({ outline }: Pick<Entry<'plate'>, 'outline'>): PlateFace {
  const centre = outlineCentre(outline);
  const normal = outlineNormal(outline, centre);
  const x = normalize(cross(cross(normal, longestSide(outline)), normal));
  const y = cross(normal, x);
  let offPlaneMm = 0;
  const corners = outline.map((corner, i): Point2 => {
    const from = sub(corner, centre);
    const off = Math.abs(dot(from, normal));
    if (off > OUT_OF_PLANE_MM) {
      throw new Error(
        `outline[${i}] lies ${off.toFixed(2)} mm off the plane of the outline: ` +
          `all corners must be within ${OUT_OF_PLANE_MM} mm of one plane`,
      );
    }
    offPlaneMm = Math.max(offPlaneMm, off);
    return [dot(from, x), dot(from, y)];
  });
  const fault = outlineFault(corners);
  if (fault !== undefined) throw new Error(fault);
  return { corners, vehicleFromFace: fromAxes(x, y, normal, centre), offPlaneMm };
}

function longestSide(outline: readonly Vec3[]): Vec3 {
  const sides = outline.map((corner, i) => addScaled(outline[(i + 1) % outline.length], corner, -1));
  return sides.reduce((best, side) => (length(side) > length(best) ? side : best));
}
