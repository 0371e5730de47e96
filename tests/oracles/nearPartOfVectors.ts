import { cross, dot, length, lerp, normalize, scale, sub, type Vec3 } from '../../src/math/vec.ts';

export type Triangle = readonly [Vec3, Vec3, Vec3];

/** A triangle thinner than this share of its length has no reliable normal. */
const THIN = 1e-6;
/** Rounding of the planes through a triangle that is not thinner than `THIN`, at a coordinate of a metre, mm. */
const PLANE_MM = 1e-6;

const AXES: readonly Vec3[] = [
  [1, 0, 0],
  [0, 1, 0],
  [0, 0, 1],
];

/** The result of `nearPart`, plane by plane, with vectors. */
export function nearPartOfVectors(s: Triangle, t: Triangle, withinMm: number): readonly Vec3[] {
  const planes: [normal: Vec3, limit: number][] = AXES.flatMap((axis): [Vec3, number][] => {
    const places = t.map((corner) => dot(axis, corner));
    return [
      [axis, Math.max(...places)],
      [scale(axis, -1), -Math.min(...places)],
    ];
  });
  const square = cross(sub(t[1], t[0]), sub(t[2], t[0]));
  const area = length(square);
  const edges = t.map((corner, c) => sub(t[(c + 1) % 3], corner));
  const longest = Math.max(...edges.map(length));
  if (area > THIN * longest * longest) {
    const normal = scale(square, 1 / area);
    planes.push([normal, dot(normal, t[0])], [scale(normal, -1), -dot(normal, t[0])]);
    edges.forEach((edge, c) => {
      const outward = normalize(cross(edge, normal));
      planes.push([outward, dot(outward, t[c])]);
    });
  }
  return planes.reduce<readonly Vec3[]>(
    (part, [normal, limit]) => cut(part, normal, limit + withinMm + PLANE_MM),
    s,
  );
}

/** Keeps the part of a polygon no further than `limit` along a unit vector. */
function cut(polygon: readonly Vec3[], normal: Vec3, limit: number): Vec3[] {
  return polygon.flatMap((from, c) => {
    const to = polygon[(c + 1) % polygon.length];
    const over = dot(normal, from) - limit;
    const next = dot(normal, to) - limit;
    const kept = over <= 0 ? [from] : [];
    return over <= 0 !== next <= 0 ? [...kept, lerp(from, to, over / (over - next))] : kept;
  });
}
