import {
  add,
  addScaled,
  cross,
  dot,
  length,
  normalize,
  perpendicular,
  scale,
  sub,
  type Vec3,
} from '../../math/vec.ts';
import { inverseOfSquares } from './solve3.ts';

export interface FittedRing {
  centre: Vec3;
  /** Unit vector; the points run anticlockwise about it. */
  axis: Vec3;
  radiusMm: number;
  /** Greatest distance of a point from the circle, in its plane or out of it, mm. */
  misfitMm: number;
  /** Angle from the first point to the last; a full turn if the points are closed. */
  spanRad: number;
  /** Bounds on the change of the fit per mm of error of the points: centre and radius in mm, axis in rad. */
  gain: { centre: number; radius: number; tiltRad: number };
}

const STEPS = 3;

/** Points relative to `middle`: components along two directions square to an axis, and along the axis. */
function inPlane(points: readonly Vec3[], middle: Vec3, axis: Vec3) {
  const x = perpendicular(axis);
  const y = cross(axis, x);
  const flat = points.map((point): [number, number, number] => {
    const from = sub(point, middle);
    return [dot(from, x), dot(from, y), dot(from, axis)];
  });
  return { axis, x, y, flat };
}

/**
 * Least-squares circle through points in order around it. Undefined if the points are in line, or too few.
 *
 * The fit is linear in small errors of the points. Errors of at most e, along the radius or across the plane, move the
 * centre by at most e times the sum of the lengths of its rows in the pseudo-inverse: `gain`. For points evenly spaced on a
 * full circle that sum is 2 in the plane; it is larger for an arc.
 */
export function fitRing(points: readonly Vec3[], closed: boolean): FittedRing | undefined {
  if (points.length < 4) return undefined;
  const middle = scale(points.reduce(add, [0, 0, 0]), 1 / points.length);
  let turning: Vec3 = [0, 0, 0];
  for (let i = 0; i + 1 < points.length; i++)
    turning = add(turning, cross(sub(points[i], points[0]), sub(points[i + 1], points[0])));
  const reach = Math.max(...points.map((point) => length(sub(point, middle))));
  if (!(length(turning) > 1e-9 * reach * reach)) return undefined;
  const rough = inPlane(points, middle, normalize(turning));
  const levelled = inverseOfSquares(rough.flat.map(([u, v]) => [u, v, reach]));
  if (levelled === undefined) return undefined;
  let heights: Vec3 = [0, 0, 0];
  for (const [u, v, w] of rough.flat) heights = addScaled(heights, [u, v, reach], w);
  const [slopeU, slopeV] = levelled.times(...heights);
  const axis = normalize(addScaled(addScaled(rough.axis, rough.x, -slopeU), rough.y, -slopeV));
  const { x, y, flat } = inPlane(points, middle, axis);

  // Start with the circle that minimises the sum of (distance^2 - radius^2)^2, then take a few Gauss-Newton steps.
  const algebraic = inverseOfSquares(flat.map(([u, v]) => [u, v, reach]));
  if (algebraic === undefined) return undefined;
  let right: Vec3 = [0, 0, 0];
  for (const [u, v] of flat) right = addScaled(right, [u, v, reach], u * u + v * v);
  const [p, q, r] = algebraic.times(...right);
  let [cu, cv] = [p / 2, q / 2];
  let radiusMm = Math.sqrt(Math.max(0, r * reach + cu * cu + cv * cv));
  let rows: [number, number, number][] = [];
  let inverse = inverseOfSquares([]);
  for (let step = 0; step < STEPS; step++) {
    rows = flat.map(([u, v]) => {
      const away = Math.hypot(u - cu, v - cv);
      return [(u - cu) / away, (v - cv) / away, 1];
    });
    inverse = inverseOfSquares(rows);
    if (inverse === undefined) return undefined;
    let off: Vec3 = [0, 0, 0];
    flat.forEach(([u, v], i) => {
      off = addScaled(off, rows[i], Math.hypot(u - cu, v - cv) - radiusMm);
    });
    const [du, dv, dr] = inverse.times(...off);
    cu += du;
    cv += dv;
    radiusMm += dr;
  }
  const tilting = inverseOfSquares(flat.map(([u, v]) => [u, v, reach]));
  if (inverse === undefined || tilting === undefined) return undefined;
  const gain = { centre: 0, radius: 0, tiltRad: 0 };
  let misfitMm = 0;
  flat.forEach(([u, v, w], i) => {
    const [gu, gv, gr] = (inverse as NonNullable<typeof inverse>).times(...rows[i]);
    const [tu, tv] = tilting.times(u, v, reach);
    gain.centre += Math.hypot(gu, gv);
    gain.radius += Math.abs(gr);
    gain.tiltRad += Math.hypot(tu, tv);
    misfitMm = Math.max(misfitMm, Math.abs(Math.hypot(u - cu, v - cv) - radiusMm), Math.abs(w));
  });
  // The centre may also move across the plane, by the errors of tilt and height.
  gain.centre = Math.hypot(gain.centre, 1 + gain.tiltRad * Math.hypot(cu, cv));
  let spanRad = closed ? 2 * Math.PI : 0;
  for (let i = 0; !closed && i + 1 < flat.length; i++) {
    const [a, b] = [rows[i], rows[i + 1]];
    spanRad += Math.atan2(a[0] * b[1] - a[1] * b[0], a[0] * b[0] + a[1] * b[1]);
  }
  const centre = addScaled(addScaled(middle, x, cu), y, cv);
  return { centre, axis, radiusMm, misfitMm, spanRad, gain };
}
