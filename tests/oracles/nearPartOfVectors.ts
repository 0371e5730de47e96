import { cross, dot, length, lerp, normalize, scale, sub, type Vec3 } from '../../src/math/vec.ts';

export type Triangle = readonly [Vec3, Vec3, Vec3];

/** A triangle thinner than this share of its length has no side to speak of. */
const THIN = 1e-6;
/** Rounding of where a side or an edge of a triangle no thinner than that is, at a metre, mm. */
const PLANE_MM = 1e-6;

const AXES: readonly Vec3[] = [
  [1, 0, 0],
  [0, 1, 0],
  [0, 0, 1],
];

/** What `nearPart` finds, plane by plane, written with vectors. */
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

/** Keeps of a polygon what lies no further than `limit` along a unit vector. */
function cut(polygon: readonly Vec3[], normal: Vec3, limit: number): Vec3[] {
  return polygon.flatMap((from, c) => {
    const to = polygon[(c + 1) % polygon.length];
    const over = dot(normal, from) - limit;
    const next = dot(normal, to) - limit;
    const kept = over <= 0 ? [from] : [];
    return over <= 0 !== next <= 0 ? [...kept, lerp(from, to, over / (over - next))] : kept;
  });
}
