/** A point in a plane. */
export type Point2 = readonly [number, number];

/**
 * Corners of the convex hull, anticlockwise if the first axis points right and the second up. For collinear
 * points: the two ends. Needs at least two distinct points.
 */
export function convexHull(points: readonly Point2[]): Point2[] {
  const sorted = points.toSorted(([ax, ay], [bx, by]) => ax - bx || ay - by);
  const chain = (ordered: readonly Point2[]): Point2[] => {
    const kept: Point2[] = [];
    for (const point of ordered) {
      while (kept.length > 1 && turn(kept[kept.length - 2], kept[kept.length - 1], point) <= 0) kept.pop();
      kept.push(point);
    }
    kept.pop();
    return kept;
  };
  return [...chain(sorted), ...chain(sorted.toReversed())];
}

/** Twice the signed area of a triangle; positive if its corners run anticlockwise. */
const turn = (a: Point2, b: Point2, c: Point2): number =>
  (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]);

/** The edges of a convex polygon, each from one corner to the next. Two corners give one edge. */
export const edgesOf = (corners: readonly Point2[]): (readonly [Point2, Point2])[] =>
  corners.length === 2
    ? [[corners[0], corners[1]]]
    : corners.map((corner, k) => [corner, corners[(k + 1) % corners.length]] as const);

/**
 * Whether two convex polygons or line segments have a common point. Separating axes: the normal and the direction of
 * each edge.
 */
export function doConvexMeet(one: readonly Point2[], other: readonly Point2[]): boolean {
  const edges = [...edgesOf(one), ...edgesOf(other)];
  return edges.every(([a, b]) => {
    const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
    return !areParted(one, other, [-dy, dx]) && !areParted(one, other, [dx, dy]);
  });
}

function areParted(one: readonly Point2[], other: readonly Point2[], [nx, ny]: Point2): boolean {
  const along = (corners: readonly Point2[]) => corners.map(([x, y]) => x * nx + y * ny);
  const [these, those] = [along(one), along(other)];
  return Math.max(...these) < Math.min(...those) || Math.max(...those) < Math.min(...these);
}
