import type { Region } from './zoneRegion.ts';

const piece = new Float64Array(9);
const point = new Float64Array(3);

/**
 * What a zone leaves of some triangles, nine coordinates each, in the frame of the zone; it may reach into the zone by
 * the tolerance at most. A triangle that the edge of the zone runs through is halved until that edge is straight within the
 * tolerance across each piece, and is then cut along the line between the points where it enters and leaves. Each triangle is cut by itself: neighbours cover the same edges, but do not share the points on them.
 */
export function cutTriangles(triangles: readonly number[], region: Region, toleranceMm: number): number[] {
  const left: number[] = [];
  for (let t = 0; t < triangles.length; t += 9) {
    const waiting: number[] = [];
    for (let k = t; k < t + 9; k += 3)
      region.toLocal(triangles[k], triangles[k + 1], triangles[k + 2], waiting, waiting.length);
    const before = left.length;
    cutLocal(waiting, region, toleranceMm, left);
    for (let k = before; k < left.length; k += 3)
      region.fromLocal(left[k], left[k + 1], left[k + 2], left, k);
  }
  return left;
}

/** Puts out what is left of triangles in the axes of the zone, which are used up. */
function cutLocal(waiting: number[], region: Region, toleranceMm: number, left: number[]): void {
  while (waiting.length > 0) {
    const at = waiting.length - 9;
    if (deepestOf(waiting, at, at + 9, region) <= toleranceMm) {
      for (let k = at; k < at + 9; k++) left.push(waiting[k]);
      waiting.length = at;
      continue;
    }
    const [a, b, c] = [
      isInside(waiting, at, region),
      isInside(waiting, at + 3, region),
      isInside(waiting, at + 6, region),
    ];
    // A zone is convex.
    if (a && b && c) {
      waiting.length = at;
      continue;
    }
    const kept = left.length;
    keep(waiting, at, a, b, c, region, left);
    const from = longestEdge(waiting, at);
    // Along an edge that runs out of the zone, no point is deeper in it than the edge is long.
    if (
      deepestOf(left, kept, left.length, region) <= toleranceMm ||
      lengthSq(waiting, at, from) <= toleranceMm * toleranceMm
    ) {
      waiting.length = at;
      continue;
    }
    left.length = kept;
    halve(waiting, at, from);
  }
}

const isInside = (p: readonly number[], at: number, region: Region): boolean =>
  region.localDepthMm(p[at], p[at + 1], p[at + 2]) >= 0;

/** Upper bound of how deep triangles reach into the zone. */
function deepestOf(p: readonly number[], from: number, end: number, region: Region): number {
  let deepest = Number.NEGATIVE_INFINITY;
  for (let t = from; t < end; t += 9) {
    for (let k = 0; k < 9; k++) piece[k] = p[t + k];
    deepest = Math.max(deepest, region.deepestMm(piece));
  }
  return deepest;
}

/** Puts out a triangle, of which some corners are inside, without its inside: what is left beyond a line between two crossings. */
function keep(
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

/** Sets `point` to where the way from an inside corner to an outside one leaves the zone. */
function cross(p: readonly number[], v: number, w: number, region: Region): void {
  const s = region.exit(p[v], p[v + 1], p[v + 2], p[w], p[w + 1], p[w + 2]);
  for (let k = 0; k < 3; k++) point[k] = p[v + k] + s * (p[w + k] - p[v + k]);
}

/** The corner from which the longest edge runs to the next. */
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

/** Puts both halves of a triangle, across the edge from a corner to the next, in its place at the end of a list. */
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
