import type { Region } from './zoneRegion.ts';

const local = new Float64Array(9);
const depth = new Float64Array(3);
const inside = new Float64Array(3);
const outside = new Float64Array(3);

/**
 * What a zone leaves of some triangles, nine coordinates each, in the frame that the zone is told in; it may reach into
 * the zone by the error, which is within the tolerance. A triangle that the edge of the zone runs through is halved until that edge is straight within
 * the tolerance across each piece, and is then cut along the line between the points where it enters and leaves. Each
 * triangle is cut by itself: neighbours cover the same edges, but do not share the points on them.
 */
export function cutTriangles(
  triangles: readonly number[],
  region: Region,
  toleranceMm: number,
): { left: number[]; errorMm: number } {
  const left: number[] = [];
  let errorMm = 0;
  const waiting = triangles.slice();
  while (waiting.length > 0) {
    const at = waiting.length - 9;
    for (let k = 0; k < 9; k += 3) {
      const [x, y, z] = [waiting[at + k], waiting[at + k + 1], waiting[at + k + 2]];
      region.toLocal(x, y, z, local, k);
      depth[k / 3] = region.depthMm(x, y, z);
    }
    const deepestMm = region.deepestMm(local);
    if (deepestMm <= toleranceMm) {
      errorMm = Math.max(errorMm, deepestMm);
      for (let k = at; k < at + 9; k++) left.push(waiting[k]);
      waiting.length = at;
      continue;
    }
    const corners = +(depth[0] >= 0) + +(depth[1] >= 0) + +(depth[2] >= 0);
    if (corners === 3) {
      // A zone is convex.
      waiting.length = at;
      continue;
    }
    const from = longestEdge(waiting, at);
    const isSmall = lengthSq(waiting, at, from) <= toleranceMm * toleranceMm;
    const kept = left.length;
    keep(waiting, at, corners, region, left);
    const keptMm = deepestOf(left, kept, region);
    if (isSmall || keptMm <= toleranceMm) {
      errorMm = Math.max(errorMm, keptMm);
      waiting.length = at;
      continue;
    }
    left.length = kept;
    halve(waiting, at, from);
  }
  return { left, errorMm };
}

/** Puts out a triangle without its inside: itself, or what is left beyond the line between two crossings. */
function keep(from: readonly number[], at: number, corners: number, region: Region, out: number[]): void {
  if (corners === 0) {
    for (let k = at; k < at + 9; k++) out.push(from[k]);
    return;
  }
  const isOdd = corners === 1;
  const odd = depth[0] >= 0 === isOdd ? 0 : depth[1] >= 0 === isOdd ? 1 : 2;
  const [u, v, w] = [at + 3 * odd, at + 3 * ((odd + 1) % 3), at + 3 * ((odd + 2) % 3)];
  const corner = (c: number) => out.push(from[c], from[c + 1], from[c + 2]);
  const cross = (c: number) =>
    isOdd ? crossing(from, u, c, region, out) : crossing(from, c, u, region, out);
  if (isOdd) {
    cross(v);
    corner(v);
    corner(w);
    cross(v);
    corner(w);
    cross(w);
  } else {
    corner(u);
    cross(v);
    cross(w);
  }
}

/** Puts out where the way from an inside corner to an outside one leaves the zone. */
function crossing(p: readonly number[], v: number, w: number, region: Region, out: number[]): void {
  region.toLocal(p[v], p[v + 1], p[v + 2], inside, 0);
  region.toLocal(p[w], p[w + 1], p[w + 2], outside, 0);
  const s = region.exit(inside[0], inside[1], inside[2], outside[0], outside[1], outside[2]);
  for (let k = 0; k < 3; k++) out.push(p[v + k] + s * (p[w + k] - p[v + k]));
}

/** Upper bound of how deep the triangles from a place on reach into the zone. */
function deepestOf(triangles: readonly number[], from: number, region: Region): number {
  let deepest = Number.NEGATIVE_INFINITY;
  for (let t = from; t < triangles.length; t += 9) {
    for (let k = 0; k < 9; k += 3)
      region.toLocal(triangles[t + k], triangles[t + k + 1], triangles[t + k + 2], local, k);
    deepest = Math.max(deepest, region.deepestMm(local));
  }
  return deepest;
}

/** The corner from which the longest edge runs to the next. */
function longestEdge(p: readonly number[], at: number): number {
  let longest = 0;
  for (let e = 1; e < 3; e++) if (lengthSq(p, at, e) > lengthSq(p, at, longest)) longest = e;
  return longest;
}

function lengthSq(p: readonly number[], at: number, edge: number): number {
  const [v, w] = [at + 3 * edge, at + 3 * ((edge + 1) % 3)];
  const [dx, dy, dz] = [p[v] - p[w], p[v + 1] - p[w + 1], p[v + 2] - p[w + 2]];
  return dx * dx + dy * dy + dz * dz;
}

/** Puts both halves of a triangle, across the edge from a corner to the next, in its place at the end of a list. */
function halve(p: number[], at: number, edge: number): void {
  const [v, w] = [at + 3 * edge, at + 3 * ((edge + 1) % 3)];
  for (let k = 0; k < 9; k++) p.push(p[at + k]);
  for (let k = 0; k < 3; k++) {
    const middle = (p[v + k] + p[w + k]) / 2;
    p[v + 9 + k] = middle;
    p[w + k] = middle;
  }
}
