import type { Vec3 } from '../math/vec.ts';

/**
 * Contact of two surfaces at a pose: lines in the frame of A. A closed line ends where it began. An open line ends
 * where a zone was cut away, or where several lines meet. Where surfaces touch at a single point, the line is that
 * point.
 */
export interface Contact {
  lines: readonly (readonly Vec3[])[];
  lengthMm: number;
}

/** Ends no further apart than this along each axis are merged: far above rounding, far below anything visible. */
const SAME_MM = 1e-6;

/**
 * Joins segments (six coordinates each) end to end into lines. Drops duplicates, which occur where an edge lies in a
 * face. A line ends at a point where no other segment or more than one continues.
 */
export function joinSegments(segments: readonly number[]): Contact {
  const points: Vec3[] = [];
  const pointNear = pointFinder(points);
  /** Neighbours of each point. Each segment is stored at both of its ends. */
  const joined: Set<number>[] = [];
  for (let i = 0; i < segments.length; i += 6) {
    const from = pointNear(segments[i], segments[i + 1], segments[i + 2]);
    const to = pointNear(segments[i + 3], segments[i + 4], segments[i + 5]);
    for (const point of [from, to]) joined[point] ??= new Set();
    if (from === to) continue;
    joined[from].add(to);
    joined[to].add(from);
  }
  const lines: Vec3[][] = [];
  let lengthMm = 0;
  const follow = (start: number): void => {
    const line = [points[start]];
    let at = start;
    do {
      const [next] = joined[at];
      joined[at].delete(next);
      joined[next].delete(at);
      line.push(points[next]);
      lengthMm += Math.hypot(...points[next].map((x, k) => x - points[at][k]));
      at = next;
    } while (passed[at] && at !== start);
    lines.push(line);
  };
  /** Points with exactly two segments. */
  const passed = joined.map((others) => others.size === 2);
  joined.forEach((others, point) => {
    if (others.size === 0 && !passed[point]) lines.push([points[point]]);
  });
  joined.forEach((others, point) => {
    if (!passed[point]) while (others.size > 0) follow(point);
  });
  joined.forEach((others, point) => {
    while (others.size > 0) follow(point);
  });
  return { lines, lengthMm };
}

/** Returns the index of a point. Reuses an earlier point within `SAME_MM`. */
function pointFinder(points: Vec3[]): (x: number, y: number, z: number) => number {
  const cells = new Map<string, number[]>();
  const cell = (value: number, shift: number) => Math.floor(value / (2 * SAME_MM) + shift);
  return (x, y, z) => {
    // A point within `SAME_MM` is in the cell of one of the eight corners of the cube about this one.
    for (let corner = 0; corner < 8; corner++) {
      const [sx, sy, sz] = [corner & 1, corner & 2, corner & 4].map((bit) => (bit === 0 ? -0.5 : 0.5));
      for (const point of cells.get(`${cell(x, sx)} ${cell(y, sy)} ${cell(z, sz)}`) ?? [])
        if (Math.max(...[x, y, z].map((value, k) => Math.abs(value - points[point][k]))) <= SAME_MM)
          return point;
    }
    const key = `${cell(x, 0)} ${cell(y, 0)} ${cell(z, 0)}`;
    cells.set(key, [...(cells.get(key) ?? []), points.length]);
    points.push([x, y, z]);
    return points.length - 1;
  };
}
