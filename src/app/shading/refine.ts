import type { DrawnMesh } from '../viewer/drawnMesh.ts';

/** What is measured at a point of a surface. */
export interface Value {
  clearanceMm: number;
  marginMm: number;
  /** No other part that counts at this point is nearer. */
  atLeastMm: number;
  /** Which parts do not count there, as contact with them is intended: a bit for each. */
  leftOut: number;
}

export interface RefineOptions {
  /** Sides of triangles are no longer than this where parts touch, mm. */
  leastMm: number;
  /** They may be longer by this share of the clearance. */
  growth: number;
  /** No more points than this: sides stay longer then. */
  mostPoints: number;
}

/** A surface with what was measured at each of its points, straight between them. */
export interface Sampled {
  positions: Float32Array;
  normals: Float32Array;
  triangles: Uint32Array;
  clearanceMm: Float32Array;
  marginMm: Float32Array;
  /** Least x y z, greatest x y z. */
  box: readonly number[];
  /**
   * How far what is drawn between points of a triangle can be from the clearance there at most, mm, over all triangles
   * that come as near as `nearMm` of another part. Not of those through which the edge runs of where contact is
   * intended: what is drawn there is neither the one nor the other.
   */
  betweenMm: number;
}

/** Rounds in which sides are halved: from the longest side of a part to a millimetre. */
const ROUNDS = 12;

/**
 * Measures a surface at the corners of its triangles, and halves their sides where these are long for how near another
 * part is: clearance changes by no more than the way between two points, so that on a side of length l with clearances a
 * and b it is (a + b - l) / 2 at least. Whether a side is halved depends on its two ends alone, so that the two triangles
 * at it do the same and no gap opens between them. On a side of which one end counts a part that the other does not,
 * that part may be near anywhere up to the other end; between ends that count the same all points do, as where contact is
 * intended is convex.
 *
 * Between the corners of a triangle, the mean by weight is off by at most the sum of weight times way to the corner, which
 * is 2/3 of the longest side at most: the `betweenMm`.
 *
 * Yields after every `CHUNK` points, so that whoever runs it can give way.
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
  const leftOut: number[] = [];
  function* measureNew(): Generator<void> {
    for (let v = clearanceMm.length; v < p.length / 3; v++) {
      const value = measure(p[3 * v], p[3 * v + 1], p[3 * v + 2]);
      clearanceMm.push(value.clearanceMm);
      marginMm.push(value.marginMm);
      atLeastMm.push(value.atLeastMm);
      leftOut.push(value.leftOut);
      if (v % CHUNK === CHUNK - 1) yield;
    }
  }
  const long = (a: number, b: number) =>
    Math.hypot(p[3 * a] - p[3 * b], p[3 * a + 1] - p[3 * b + 1], p[3 * a + 2] - p[3 * b + 2]);
  const isLong = (a: number, b: number): boolean => {
    const l = long(a, b);
    const both =
      leftOut[a] === leftOut[b] ? atLeastMm[a] + atLeastMm[b] : Math.min(atLeastMm[a], atLeastMm[b]);
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
        // Exactly as the graphics card is given it: both triangles at a fold have the same point.
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
    if (leftOut[a] !== leftOut[b] || leftOut[b] !== leftOut[c]) continue;
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

/** Points measured at a stretch: a few milliseconds. */
const CHUNK = 256;

/** The triangles of a triangle of which some sides are halved. */
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
