import type { Region } from './zoneRegion.ts';

const piece = new Float64Array(9);
const point = new Float64Array(3);

/**
 * The parts of some triangles outside a zone: nine coordinates each, in the frame of the zone. They reach into the
 * zone by at most the tolerance. A triangle across the edge of the zone is halved until that edge is straight within
 * the tolerance in each piece. Each piece is then cut along the line between the two points where the edge crosses
 * it. Triangles are cut independently: neighbours cover the same edges but do not share the points on them.
 */
export function cutTriangles(triangles: readonly number[], region: Region, toleranceMm: number): number[] {
  const left: number[] = [];
  for (let t = 0; t < triangles.length; t += 9) {
    const pending: number[] = [];
    for (let k = t; k < t + 9; k += 3)
      region.toLocal(triangles[k], triangles[k + 1], triangles[k + 2], pending, pending.length);
    const before = left.length;
    cutLocal(pending, region, toleranceMm, left);
    for (let k = before; k < left.length; k += 3)
      region.fromLocal(left[k], left[k + 1], left[k + 2], left, k);
  }
  return left;
}

/** Appends the parts of triangles outside the zone to `left`, in the axes of the zone. Empties `pending`. */
function cutLocal(pending: number[], region: Region, toleranceMm: number, left: number[]): void {
  while (pending.length > 0) {
    const at = pending.length - 9;
    if (deepestOf(pending, at, at + 9, region) <= toleranceMm) {
      for (let k = at; k < at + 9; k++) left.push(pending[k]);
      pending.length = at;
      continue;
    }
    const [a, b, c] = [
      isInside(pending, at, region),
      isInside(pending, at + 3, region),
      isInside(pending, at + 6, region),
    ];
    // A zone is convex, so the whole triangle is inside.
    if (a && b && c) {
      pending.length = at;
      continue;
    }
    const kept = left.length;
    appendOutside(pending, at, a, b, c, region, left);
    const from = longestEdge(pending, at);
    // On an edge that leaves the zone, no point is deeper than the edge is long.
    if (
      deepestOf(left, kept, left.length, region) <= toleranceMm ||
      lengthSq(pending, at, from) <= toleranceMm * toleranceMm
    ) {
      pending.length = at;
      continue;
    }
    left.length = kept;
    halve(pending, at, from);
  }
}

const isInside = (p: readonly number[], at: number, region: Region): boolean =>
  region.localDepthMm(p[at], p[at + 1], p[at + 2]) >= 0;

/** Upper bound of the depth of triangles in the zone. */
function deepestOf(p: readonly number[], from: number, end: number, region: Region): number {
  let deepest = Number.NEGATIVE_INFINITY;
  for (let t = from; t < end; t += 9) {
    for (let k = 0; k < 9; k++) piece[k] = p[t + k];
    deepest = Math.max(deepest, region.deepestMm(piece));
  }
  return deepest;
}

/**
 * Appends the part of a triangle outside the zone, cut along the line between two crossings. Not all corners are
 * inside.
 */
function appendOutside(
  p: readonly number[],
  at: number,
  a: boolean,
  b: boolean,
  c: boolean,
  region: Region,
  out: number[],
): void {
  const inside = +a + +b + +c;
  if (inside === 0) {
    for (let k = at; k < at + 9; k++) out.push(p[k]);
    return;
  }
  const isOdd = inside === 1;
  const odd = a === isOdd ? 0 : b === isOdd ? 1 : 2;
  const [u, v, w] = [at + 3 * odd, at + 3 * ((odd + 1) % 3), at + 3 * ((odd + 2) % 3)];
  if (isOdd) {
    cross(p, u, v, region);
    const [x, y, z] = point;
    out.push(x, y, z, p[v], p[v + 1], p[v + 2], p[w], p[w + 1], p[w + 2]);
    out.push(x, y, z, p[w], p[w + 1], p[w + 2]);
    cross(p, u, w, region);
    out.push(point[0], point[1], point[2]);
  } else {
    out.push(p[u], p[u + 1], p[u + 2]);
    cross(p, v, u, region);
    out.push(point[0], point[1], point[2]);
    cross(p, w, u, region);
    out.push(point[0], point[1], point[2]);
  }
}

/** Sets `point` to where the segment from an inside corner to an outside corner leaves the zone. */
function cross(p: readonly number[], v: number, w: number, region: Region): void {
  const s = region.exit(p[v], p[v + 1], p[v + 2], p[w], p[w + 1], p[w + 2]);
  for (let k = 0; k < 3; k++) point[k] = p[v + k] + s * (p[w + k] - p[v + k]);
}

/** Index of the corner at which the longest edge starts. */
function longestEdge(p: readonly number[], at: number): number {
  let longest = 0;
  for (let e = 1; e < 3; e++) if (lengthSq(p, at, e) > lengthSq(p, at, longest)) longest = e;
  return longest;
}

function lengthSq(p: readonly number[], at: number, edge: number): number {
  const v = at + 3 * edge;
  const w = at + 3 * ((edge + 1) % 3);
  const x = p[v] - p[w];
  const y = p[v + 1] - p[w + 1];
  const z = p[v + 2] - p[w + 2];
  return x * x + y * y + z * z;
}

/** Replaces the last triangle of a list with its two halves, split across the edge that starts at a corner. */
function halve(p: number[], at: number, edge: number): void {
  const v = at + 3 * edge;
  const w = at + 3 * ((edge + 1) % 3);
  for (let k = 0; k < 9; k++) p.push(p[at + k]);
  for (let k = 0; k < 3; k++) {
    const middle = (p[v + k] + p[w + k]) / 2;
    p[v + 9 + k] = middle;
    p[w + k] = middle;
  }
}
