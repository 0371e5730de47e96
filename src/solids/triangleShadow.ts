import { cross, lerp, sub, type Vec3 } from '../math/vec.ts';

/**
 * A corner of a triangle in the wheel-axis frame turned about the axis until y and one of its other axes span the
 * normal of the triangle: distance from the axis along the level part of the normal, distance square to that, y.
 */
type Seen = Vec3;

/**
 * The shadow of a triangle: each of its points by radius and y, as it passes through a half plane beside the wheel
 * axis. Corners in the wheel-axis frame, mm, anticlockwise seen from outside.
 *
 * At one y the triangle is a level line, and the radius along it is least where it passes nearest the axis. These
 * places lie on one straight line of the triangle, in the plane that holds axis and normal. On either side of that line
 * the radius only grows away from it, so that the shadow of each side is what its edges' shadows enclose. The shadow of
 * an edge is a hyperbola, its radius a convex function of y: chords lie beyond it where it ends the shadow outward,
 * and chords moved to touch it lie before it where it begins the shadow.
 *
 * Gives none, one or two polygons of radius and y, anticlockwise with the radius to the right and y up. Together they hold all of the
 * shadow, and no point that is further than `toleranceMm` from it along the radius. A triangle square to the axis or
 * without area has a shadow without area: none.
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
  const seen = corners.map(([x, y, z]): Seen => [x * hx + z * hz, x * hz - z * hx, y]);
  return [1, -1].flatMap((sign) => {
    const side = onSide(seen, sign);
    return side.length < 3 ? [] : [shadowOfSide(side, sign, toleranceMm)];
  });
}

/** The part of a polygon whose second coordinate has a sign; cut points lie at 0 exactly. */
function onSide(polygon: readonly Seen[], sign: number): Seen[] {
  return polygon.flatMap((p, i) => {
    const q = polygon[(i + 1) % polygon.length];
    const kept = p[1] * sign >= 0 ? [p] : [];
    if (p[1] * q[1] >= 0) return kept;
    const cut = lerp(p, q, p[1] / (p[1] - q[1]));
    return [...kept, [cut[0], 0, cut[2]]];
  });
}

/** Where y rises along the edges of the side in `sign`, they end the shadow outward; where it falls, they begin it. */
function shadowOfSide(side: readonly Seen[], sign: number, toleranceMm: number): [number, number][] {
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
 * Where to cut an edge, as fractions of it from 0 to 1, so that the radius along each piece is nowhere more than
 * `sagMm`, at most the tolerance, below the straight line between the radii of its ends. With u the way along the edge
 * seen from above, from the place nearest the axis, the radius is hypot(u, r0). For u = r0 sinh s, a chord from s to
 * s + 2h stands off by r0 (cosh h - 1) / cosh(s + h). An edge that passes within the tolerance of the axis is the two
 * straight lines to its nearest place, to within r0.
 */
function chordsOf(p: Seen, q: Seen, toleranceMm: number): { at: number[]; sagMm: number } {
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
