import { cross, lerp, sub, type Vec3 } from '../math/vec.ts';

/**
 * A corner of a triangle in the wheel-axis frame turned about the axis until y and its first axis span the triangle's
 * normal: distance from the axis along the normal's part square to y, distance square to that part, and y.
 */
type AlignedPoint = Vec3;

/**
 * The shadow of a triangle: the set of radius and y of its points, that is, its trace in a half plane through the wheel
 * axis during a full turn. Corners in the wheel-axis frame, mm, anticlockwise viewed from outside.
 *
 * At one y the triangle is a line square to the axis, with its least radius at the point nearest the axis. These points lie
 * on one straight line of the triangle, in the plane through axis and normal. On each side of that line the radius grows
 * away from it, so the shadow of each side is the area enclosed by the shadows of its edges. The shadow of an edge is a
 * hyperbola whose radius is a convex function of y: where it bounds the shadow outward, its chords lie outside it; where it
 * bounds the shadow inward, chords moved to touch it lie inside it.
 *
 * Returns none, one or two polygons of radius and y, anticlockwise with the radius to the right and y up. Together they
 * contain the shadow, and no point further than `toleranceMm` from it along the radius. The shadow of a triangle square to
 * the axis, or without area, has no area: none.
 */
export function triangleShadow(
  corners: readonly [Vec3, Vec3, Vec3],
  toleranceMm: number,
): [number, number][][] {
  const [a, b, c] = corners;
  const normal = cross(sub(b, a), sub(c, a));
  const level = Math.hypot(normal[0], normal[2]);
  if (level === 0) return [];
  const [hx, hz] = [normal[0] / level, normal[2] / level];
  const aligned = corners.map(([x, y, z]): AlignedPoint => [x * hx + z * hz, x * hz - z * hx, y]);
  return [1, -1].flatMap((sign) => {
    const side = onSide(aligned, sign);
    return side.length < 3 ? [] : [shadowOfSide(side, sign, toleranceMm)];
  });
}

/** The part of a polygon whose second coordinate has the given sign; it is exactly 0 at cut points. */
function onSide(polygon: readonly AlignedPoint[], sign: number): AlignedPoint[] {
  return polygon.flatMap((p, i) => {
    const q = polygon[(i + 1) % polygon.length];
    const kept = p[1] * sign >= 0 ? [p] : [];
    if (p[1] * q[1] >= 0) return kept;
    const cut = lerp(p, q, p[1] / (p[1] - q[1]));
    return [...kept, [cut[0], 0, cut[2]]];
  });
}

/** Edges along which y rises (for sign 1) bound the shadow outward; those along which y falls bound it inward. */
function shadowOfSide(side: readonly AlignedPoint[], sign: number, toleranceMm: number): [number, number][] {
  const points = side.flatMap((p, i) => {
    const q = side[(i + 1) % side.length];
    const { at, sagMm } = chordsOf(p, q, toleranceMm);
    const inwardMm = (q[2] - p[2]) * sign < 0 ? sagMm : 0;
    return at.map((f): [number, number] => {
      const [along, across, y] = lerp(p, q, f);
      return [Math.max(0, Math.hypot(along, across) - inwardMm), y];
    });
  });
  return sign > 0 ? points : points.reverse();
}

/**
 * Cuts of an edge, as fractions of it from 0 to 1, such that the radius along each piece is at most `sagMm` (at most the
 * tolerance) below the straight line between the radii of its ends. Let u be the distance along the edge, projected along
 * y, from its point nearest the axis. The radius is hypot(u, r0). For u = r0 sinh s, a chord from s to s + 2h deviates by
 * r0 (cosh h - 1) / cosh(s + h). An edge that passes within the tolerance of the axis equals the two straight lines to its
 * nearest point, to within r0.
 */
function chordsOf(p: AlignedPoint, q: AlignedPoint, toleranceMm: number): { at: number[]; sagMm: number } {
  const [dx, dz] = [q[0] - p[0], q[1] - p[1]];
  const lengthMm = Math.hypot(dx, dz);
  if (lengthMm === 0) return { at: [0, 1], sagMm: 0 };
  const u0 = (p[0] * dx + p[1] * dz) / lengthMm;
  const u1 = u0 + lengthMm;
  const r0 = Math.abs(p[0] * dz - p[1] * dx) / lengthMm;
  if (r0 <= toleranceMm) return { at: u0 < 0 && u1 > 0 ? [0, -u0 / lengthMm, 1] : [0, 1], sagMm: r0 };
  const s0 = Math.asinh(u0 / r0);
  const span = Math.asinh(u1 / r0) - s0;
  const pieces = Math.max(1, Math.ceil(span / (2 * Math.acosh(1 + toleranceMm / r0))));
  const inner = Array.from(
    { length: pieces - 1 },
    (_, i) => (r0 * Math.sinh(s0 + ((i + 1) * span) / pieces) - u0) / lengthMm,
  );
  return { at: [0, ...inner, 1], sagMm: 2 * r0 * Math.sinh(span / pieces / 4) ** 2 };
}
