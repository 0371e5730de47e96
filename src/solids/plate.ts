import type { Entry } from '../design/schema.ts';
import { fromAxes } from '../math/rigid.ts';
import { add, addScaled, cross, dot, length, normalize, scale, sub, type Vec3 } from '../math/vec.ts';
import type { Builder } from './build.ts';
import { placed } from './place.ts';
import { outlineComplaint, type Point2 } from './simplePolygon.ts';

/** Corners may lie this far off their common plane: better than anyone measures a plate's corners. No source. */
const OUT_OF_PLANE_MM = 0.05;

/**
 * A flat plate: the outline, moved by the thickness to the side from which its corners run anticlockwise. Throws an
 * Error that names the corner where the outline is not flat, and the sides where it crosses or touches itself.
 */
export const buildPlate: Builder<Entry<'plate'>> = (entry, { modeller }) => {
  const { id, carrier, outline, thickness } = entry;
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
  const complaint = outlineComplaint(corners);
  if (complaint !== undefined) throw new Error(complaint);
  const solid = modeller.Manifold.extrude([corners.map(([u, v]) => [u, v])], thickness);
  const vehicleFromPlate = fromAxes(x, y, normal, centre);
  return [{ id, kind: 'plate', carrier, attachments: [], ...placed(solid, vehicleFromPlate, offPlaneMm) }];
};

export const outlineCentre = (outline: readonly Vec3[]): Vec3 =>
  scale(outline.reduce<Vec3>(add, [0, 0, 0]), 1 / outline.length);

/** Unit normal on the side from which the corners run anticlockwise (Newell's sum of the sides' cross products). */
export function outlineNormal(outline: readonly Vec3[], centre: Vec3): Vec3 {
  let twiceArea: Vec3 = [0, 0, 0];
  outline.forEach((corner, i) => {
    const next = outline[(i + 1) % outline.length];
    twiceArea = add(twiceArea, cross(sub(corner, centre), sub(next, centre)));
  });
  const perimeter = outline.reduce(
    (sum, corner, i) => sum + length(sub(outline[(i + 1) % outline.length], corner)),
    0,
  );
  // Below this the area is that of a line drawn with rounding errors.
  if (length(twiceArea) <= 1e-9 * perimeter ** 2) {
    throw new Error('the outline encloses no area: its corners lie in one line, or its two halves cancel');
  }
  return normalize(twiceArea);
}

function longestSide(outline: readonly Vec3[]): Vec3 {
  const sides = outline.map((corner, i) => addScaled(outline[(i + 1) % outline.length], corner, -1));
  return sides.reduce((best, side) => (length(side) > length(best) ? side : best));
}
