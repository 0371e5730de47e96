import type { DrawnMesh } from '../drawing/drawnMesh.ts';

/** Measurement at a point of a surface. */
export interface Value {
  clearanceMm: number;
  marginMm: number;
  /** Lower bound on the clearance to every part that is not excluded here. */
  atLeastMm: number;
  /** Parts excluded at this point because contact with them is intended: one bit for each. */
  excludedMask: number;
}

export interface RefineOptions {
  /** Longest side of a triangle where parts touch, mm. */
  leastMm: number;
  /** Sides may be longer by this share of the clearance. */
  growth: number;
  /** Largest number of points. Once it is reached, sides are not halved further. */
  mostPoints: number;
}

/** A surface with the measurement at each of its points. Values between the points are interpolated. */
export interface Sampled {
  positions: Float32Array;
  normals: Float32Array;
  triangles: Uint32Array;
  clearanceMm: Float32Array;
  marginMm: Float32Array;
  /** Least x, y, z, then greatest x, y, z. */
  box: readonly number[];
  /**
   * Largest error of an interpolated clearance, mm, over all triangles within `nearMm` of another part. Triangles across
   * the edge of a zone of intended contact do not count: their points exclude different parts.
   */
  betweenMm: number;
}

/** Rounds of halving: from the longest side of a part to a millimetre. */
const ROUNDS = 12;

/**
 * Measures a surface at the corners of its triangles, and halves sides that are long compared with the clearance. Clearance
 * changes by no more than the distance between two points, so on a side of length l with clearances a and b at its ends it
 * is at least (a + b - l) / 2. The decision to halve a side uses its two ends only: both triangles at the side decide alike,
 * and no gap opens between them. If the ends exclude different parts, such a part may be near anywhere on the side. If they
 * exclude the same parts, so does every point between them, because zones of intended contact are convex.
 *
 * Inside a triangle, the interpolated clearance is off by at most the weighted sum of the distances to the corners. That is
 * at most 2/3 of the longest side: `betweenMm`.
 *
 * Yields after every `CHUNK` points, so that the caller can pause.
 */
export function* refine(
  drawn: DrawnMesh,
  measure: (x: number, y: number, z: number) => Value,
  nearMm: number,
  { leastMm, growth, mostPoints }: RefineOptions,
): Generator<void, Sampled> {
  const p = Array.from(drawn.positions);
  const n = Array.from(drawn.normals);
  const clearanceMm: number[] = [];
  const marginMm: number[] = [];
  const atLeastMm: number[] = [];
  const excludedMask: number[] = [];
  function* measureNew(): Generator<void> {
    for (let v = clearanceMm.length; v < p.length / 3; v++) {
      const value = measure(p[3 * v], p[3 * v + 1], p[3 * v + 2]);
      clearanceMm.push(value.clearanceMm);
      marginMm.push(value.marginMm);
      atLeastMm.push(value.atLeastMm);
      excludedMask.push(value.excludedMask);
      if (v % CHUNK === CHUNK - 1) yield;
    }
  }
  const long = (a: number, b: number) =>
    Math.hypot(p[3 * a] - p[3 * b], p[3 * a + 1] - p[3 * b + 1], p[3 * a + 2] - p[3 * b + 2]);
  const isLong = (a: number, b: number): boolean => {
    const l = long(a, b);
    const both =
      excludedMask[a] === excludedMask[b]
        ? atLeastMm[a] + atLeastMm[b]
        : Math.min(atLeastMm[a], atLeastMm[b]);
    return l > leastMm + growth * Math.max(0, (both - l) / 2);
  };
  yield* measureNew();
  let triangles: ArrayLike<number> = drawn.triangles;
  for (let round = 0; round < ROUNDS && p.length / 3 < mostPoints; round++) {
    const middles = new Map<number, number>();
    const middle = (a: number, b: number): number | undefined => {
      const key = Math.min(a, b) * 2 ** 26 + Math.max(a, b);
      const known = middles.get(key);
      if (known !== undefined) return known < 0 ? undefined : known;
      const made = isLong(a, b) ? p.length / 3 : -1;
      middles.set(key, made);
      if (made < 0) return undefined;
      for (let k = 0; k < 3; k++) {
        // The position that the graphics card draws: both triangles at a fold share it.
        p.push(Math.fround((p[3 * a + k] + p[3 * b + k]) / 2));
        n.push(n[3 * a + k] + n[3 * b + k]);
      }
      const l = Math.hypot(n[n.length - 3], n[n.length - 2], n[n.length - 1]) || 1;
      for (let k = 1; k <= 3; k++) n[n.length - k] /= l;
      return made;
    };
    const next: number[] = [];
    for (let t = 0; t < triangles.length; t += 3) {
      const [a, b, c] = [triangles[t], triangles[t + 1], triangles[t + 2]];
      halve(a, b, c, middle(a, b), middle(b, c), middle(c, a), next);
    }
    if (next.length === triangles.length) break;
    triangles = next;
    yield* measureNew();
  }
  let longest = 0;
  for (let t = 0; t < triangles.length; t += 3) {
    const [a, b, c] = [triangles[t], triangles[t + 1], triangles[t + 2]];
    if (excludedMask[a] !== excludedMask[b] || excludedMask[b] !== excludedMask[c]) continue;
    const side = Math.max(long(a, b), long(b, c), long(c, a));
    if (Math.min(atLeastMm[a], atLeastMm[b], atLeastMm[c]) - (2 / 3) * side <= nearMm)
      longest = Math.max(longest, side);
  }
  return {
    positions: Float32Array.from(p),
    normals: Float32Array.from(n),
    triangles: Uint32Array.from(triangles),
    clearanceMm: Float32Array.from(clearanceMm),
    marginMm: Float32Array.from(marginMm),
    box: boxOf(p),
    betweenMm: (2 / 3) * longest,
  };
}

function boxOf(p: readonly number[]): number[] {
  const box = [1, 1, 1, -1, -1, -1].map((sign) => sign * Number.POSITIVE_INFINITY);
  p.forEach((x, i) => {
    box[i % 3] = Math.min(box[i % 3], x);
    box[3 + (i % 3)] = Math.max(box[3 + (i % 3)], x);
  });
  return box;
}

/** Points measured between two pauses: a few milliseconds. */
const CHUNK = 256;

/** Divides a triangle at the middles of its halved sides. */
function halve(
  a: number,
  b: number,
  c: number,
  ab: number | undefined,
  bc: number | undefined,
  ca: number | undefined,
  out: number[],
): void {
  if (ab !== undefined && bc !== undefined && ca !== undefined) {
    out.push(a, ab, ca, ab, b, bc, ca, bc, c, ab, bc, ca);
  } else if (ab !== undefined && bc !== undefined) {
    out.push(ab, b, bc, a, ab, bc, a, bc, c);
  } else if (bc !== undefined && ca !== undefined) {
    halve(b, c, a, bc, ca, undefined, out);
  } else if (ca !== undefined && ab !== undefined) {
    halve(c, a, b, ca, ab, undefined, out);
  } else if (ab !== undefined) {
    out.push(a, ab, c, ab, b, c);
  } else if (bc !== undefined) {
    halve(b, c, a, bc, undefined, undefined, out);
  } else if (ca !== undefined) {
    halve(c, a, b, ca, undefined, undefined, out);
  } else {
    out.push(a, b, c);
  }
}
