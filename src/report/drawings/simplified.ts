import type { Point } from './ontoScreen.ts';

/**
 * A closed outline with fewer corners: no corner that is left out is further than `tolerance` from the new outline. (The
 * method of Douglas and Peucker, from the first corner to the one furthest from it, and back.)
 */
export function simplified(outline: readonly Point[], tolerance: number): Point[] {
  if (outline.length < 4) return [...outline];
  const far = outline.reduce(
    (best, _, i) => (apart(outline[i], outline[0]) > apart(outline[best], outline[0]) ? i : best),
    0,
  );
  const keep = new Uint8Array(outline.length + 1);
  keep[0] = 1;
  keep[far] = 1;
  const closed = [...outline, outline[0]];
  const open: [number, number][] = [
    [0, far],
    [far, outline.length],
  ];
  for (let span = open.pop(); span !== undefined; span = open.pop()) {
    const [from, to] = span;
    let [worst, at] = [tolerance, -1];
    for (let i = from + 1; i < to; i++) {
      const off = fromSegment(closed[i], closed[from], closed[to]);
      if (off > worst) [worst, at] = [off, i];
    }
    if (at < 0) continue;
    keep[at] = 1;
    open.push([from, at], [at, to]);
  }
  return outline.filter((_, i) => keep[i] === 1);
}

const apart = ([x, y]: Point, [u, v]: Point): number => Math.hypot(x - u, y - v);

/** Distance of a point from a line segment. */
function fromSegment(p: Point, a: Point, b: Point): number {
  const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
  const lengthSq = dx * dx + dy * dy;
  const along = lengthSq === 0 ? 0 : ((p[0] - a[0]) * dx + (p[1] - a[1]) * dy) / lengthSq;
  const t = Math.min(1, Math.max(0, along));
  return Math.hypot(p[0] - a[0] - t * dx, p[1] - a[1] - t * dy);
}
