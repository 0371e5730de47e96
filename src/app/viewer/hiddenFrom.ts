import { compose, fromAxes, invert, type Rigid } from '../../math/rigid.ts';
import { cross, distance, dot, lerp, perpendicular, type Vec3 } from '../../math/vec.ts';
import { type Outline, sectionOf } from '../../solids/section.ts';
import type { Mesh } from '../../solids/solid.ts';
import { squareAxis, squareOn } from './standpoint.ts';

/** A body as it is seen: its mesh, and where that stands. */
export interface Standing {
  mesh: Mesh;
  vehicleFromMesh: Rigid;
}

/** What lies this near to a point does not hide it, mm: beyond rounding, far within any gap that matters. */
const OFF_SURFACE_MM = 0.5;

/**
 * The direction from which both ends of a dimension between two bodies are seen best, square to it (see `squareOn`), and
 * which of the bodies hide an end from there. All in the vehicle's frame.
 */
export function squareOnBoth(
  a: Vec3,
  b: Vec3,
  preferred: Vec3,
  bodies: readonly Standing[],
): { eye: Vec3; hiding: boolean[] } {
  const axis = squareAxis(a, b, preferred);
  const ends = [liftedToward(a, b), liftedToward(b, a)].map((end) => hidersOf(end, axis, bodies));
  const eye = squareOn(a, b, preferred, (toward) => ends.filter((of) => of(toward).includes(true)).length);
  const hidden = ends.map((of) => of(eye));
  return { eye, hiding: bodies.map((_, k) => hidden.some((by) => by[k])) };
}

/** A hair off the surface that `point` lies on, toward `other` and within the gap between both. */
export function liftedToward(point: Vec3, other: Vec3): Vec3 {
  const gapMm = distance(point, other);
  return gapMm > 0 ? lerp(point, other, Math.min(OFF_SURFACE_MM / gapMm, 0.25)) : point;
}

/**
 * Which of `bodies` stand between a point and an eye far away, for every eye in the plane square to `axis` (unit): the
 * answer takes the direction toward the eye (unit, square to `axis`) and gives one value a body. As all rays from the
 * point lie in that plane, each body is cut with it once, and a ray then meets its outlines or not.
 *
 * Tried first: casting each ray at all triangles, 400 ms for 36 eyes where this takes some ten.
 */
export function hidersOf(point: Vec3, axis: Vec3, bodies: readonly Standing[]): (eye: Vec3) => boolean[] {
  const x = perpendicular(axis);
  const y = cross(axis, x);
  const vehicleFromPlane = fromAxes(x, y, axis, point);
  const cuts = bodies.map(({ mesh, vehicleFromMesh }) =>
    outlinesIn(mesh, compose(invert(vehicleFromMesh), vehicleFromPlane)),
  );
  return (eye) => {
    const [u, v] = [dot(eye, x), dot(eye, y)];
    return cuts.map((outlines) => outlines.some((outline) => isMet(outline, u, v)));
  };
}

/** None of a mesh that is not closed there: it hides nothing, as far as can be told. */
function outlinesIn(mesh: Mesh, meshFromPlane: Rigid): Outline[] {
  try {
    return sectionOf(mesh, meshFromPlane).flatMap(({ outer, holes }) => [outer, ...holes]);
  } catch {
    return [];
  }
}

/** Whether a ray from the origin toward (u, v), of length 1, meets an outline beyond what lies at the origin itself. */
function isMet(outline: Outline, u: number, v: number): boolean {
  const { length } = outline;
  let sideBefore = u * outline[length - 1] - v * outline[length - 2];
  let aheadBefore = u * outline[length - 2] + v * outline[length - 1];
  for (let i = 0; i < length; i += 2) {
    const side = u * outline[i + 1] - v * outline[i];
    const ahead = u * outline[i] + v * outline[i + 1];
    if (side >= 0 !== sideBefore >= 0) {
      const share = sideBefore / (sideBefore - side);
      if (aheadBefore + share * (ahead - aheadBefore) > OFF_SURFACE_MM) return true;
    }
    sideBefore = side;
    aheadBefore = ahead;
  }
  return false;
}
