import type { Point } from './ontoScreen.ts';

/**
 * A line with fewer corners: no corner that is left out is further than `tolerance` from the new line. (The method of
 * Douglas and Peucker.) The ends stay.
 */
export function simplifiedLine(line: readonly Point[], tolerance: number): Point[] {
  const last = line.length - 1;
  const keep = new Uint8Array(line.length);
  keep[0] = 1;
  keep[last] = 1;
  const open: [number, number][] = [[0, last]];
  for (let span = open.pop(); span !== undefined; span = open.pop()) {
    const [from, to] = span;
    let [worst, at] = [tolerance, -1];
    for (let i = from + 1; i < to; i++) {
      const off = fromSegment(line[i], line[from], line[to]);
      if (off > worst) [worst, at] = [off, i];
    }
    if (at < 0) continue;
    keep[at] = 1;
    open.push([from, at], [at, to]);
  }
  return line.filter((_, i) => keep[i] === 1);
}

/** A closed outline with fewer corners, as `simplifiedLine`: from the first corner to the furthest from it, and back. */
export function simplified(outline: readonly Point[], tolerance: number): Point[] {
  if (outline.length < 4) return [...outline];
  const [[x, y]] = outline;
  const apart = ([u, v]: Point): number => Math.hypot(u - x, v - y);
  const far = outline.reduce((best, point, i) => (apart(point) > apart(outline[best]) ? i : best), 0);
  const there = simplifiedLine(outline.slice(0, far + 1), tolerance);
  const back = simplifiedLine([...outline.slice(far), outline[0]], tolerance);
  return [...there, ...back.slice(1, -1)];
}

/** Distance of a point from a line segment. */
function fromSegment(p: Point, a: Point, b: Point): number {
  const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
  const lengthSq = dx * dx + dy * dy;
  const along = lengthSq === 0 ? 0 : ((p[0] - a[0]) * dx + (p[1] - a[1]) * dy) / lengthSq;
  const t = Math.min(1, Math.max(0, along));
  return Math.hypot(p[0] - a[0] - t * dx, p[1] - a[1] - t * dy);
}
