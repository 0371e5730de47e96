import type { Mesh, Zone } from '../solids/solid.ts';
import { type Region, regionOf } from './zoneRegion.ts';

/**
 * Cuts away the surface inside zones. Triangles across the edge of a zone are halved, with their neighbours, until
 * the edge is straight within the tolerance in each of them. Each is then cut along the line between the two points
 * where the edge crosses it. Zones are convex, so everything cut away is inside. The remaining surface may reach into
 * a zone by the tolerance. Neighbours still share their vertices.
 */
export interface Cut {
  /** The given mesh itself if no zone meets it. */
  mesh: Mesh;
  /** The cut is exact for zones smaller by at most this, mm. */
  errorMm: number;
}

/**
 * The part of a welded mesh outside the zones. Loses no surface outside the zones. Throws a RangeError for a zone
 * without size or axis.
 */
export function cutZones(mesh: Mesh, zones: readonly Zone[], toleranceMm: number): Cut {
  let left = mesh;
  let errorMm = 0;
  for (const zone of zones) {
    const cut = new ZoneCut(left, regionOf(zone), toleranceMm).run();
    left = cut.mesh;
    errorMm = Math.max(errorMm, cut.errorMm);
  }
  return { mesh: left, errorMm };
}

/** Measures the distance of points outside all zones, mm; negative inside one. Infinity if there are no zones. */
export function distanceOutside(zones: readonly Zone[]): (x: number, y: number, z: number) => number {
  const regions = zones.map(regionOf);
  return (x, y, z) => {
    let least = Number.POSITIVE_INFINITY;
    for (const region of regions) least = Math.min(least, -region.depthMm(x, y, z));
    return least;
  };
}

/** Both vertices of an edge in one number, independent of their order. */
const edgeKey = (v: number, w: number): number => Math.min(v, w) * 2 ** 26 + Math.max(v, w);

/** Pieces of a triangle: three vertices for each, and whether it is within the tolerance. */
interface Pieces {
  corners: number[];
  settled: boolean[];
}

class ZoneCut {
  private readonly mesh: Mesh;
  private readonly region: Region;
  private readonly toleranceMm: number;
  /** Number of vertices, and room for them. */
  private vertices = 0;
  private positions: Float64Array;
  /** Vertices in the axes of the zone. */
  private local: Float64Array;
  /** Depth of each vertex inside the zone; negative outside. */
  private depth: Float64Array;
  /** The last pass of `refine` that halved an edge at each vertex. */
  private touchedIn: Uint16Array;
  private readonly crossings = new Map<number, number>();
  private readonly piece = new Float64Array(9);
  private errorMm = 0;

  constructor(mesh: Mesh, region: Region, toleranceMm: number) {
    this.mesh = mesh;
    this.region = region;
    this.toleranceMm = toleranceMm;
    this.positions = mesh.positions;
    const vertices = mesh.positions.length / 3;
    this.local = new Float64Array(3 * vertices);
    this.depth = new Float64Array(vertices);
    this.touchedIn = new Uint16Array(vertices);
    for (let v = 0; v < vertices; v++) this.place();
  }

  run(): Cut {
    const { triangles } = this.mesh;
    /** Of each triangle: see `deepestOf`. Most are outside the zone and stay as they are. */
    const deepest = new Float64Array(triangles.length / 3);
    let isMet = false;
    for (let t = 0; t < deepest.length; t++) {
      const [a, b, c] = [triangles[3 * t], triangles[3 * t + 1], triangles[3 * t + 2]];
      // The depth grows by no more than the way from a corner; the tolerance is more than its rounding.
      const mostMm = this.depth[a] + Math.max(this.length(a, b), this.length(a, c)) + this.toleranceMm;
      deepest[t] = mostMm <= 0 ? mostMm : this.deepestOf([a, b, c]);
      isMet ||= deepest[t] > 0;
    }
    if (!isMet) return { mesh: this.mesh, errorMm: 0 };
    const pieces = this.refine(triangles, deepest);
    const left: number[] = [];
    for (let t = 0; t < deepest.length; t++) {
      const own = pieces[t]?.corners;
      if (own === undefined && deepest[t] <= 0) {
        left.push(triangles[3 * t], triangles[3 * t + 1], triangles[3 * t + 2]);
        continue;
      }
      const corners = own ?? triangles.subarray(3 * t, 3 * t + 3);
      for (let c = 0; c < corners.length; c += 3) {
        const kept = this.keptOf(corners[c], corners[c + 1], corners[c + 2]);
        this.errorMm = Math.max(this.errorMm, this.deepestOf(kept));
        for (const v of kept) left.push(v);
      }
    }
    return { mesh: this.compact(left), errorMm: this.errorMm };
  }

  /** Adds the next vertex, whose position is set. */
  private place(): void {
    const { positions: p, vertices: v } = this;
    this.vertices++;
    this.region.toLocal(p[3 * v], p[3 * v + 1], p[3 * v + 2], this.local, 3 * v);
    this.depth[v] = this.region.depthMm(p[3 * v], p[3 * v + 1], p[3 * v + 2]);
  }

  /** Makes room for as many vertices again. */
  private grow(): void {
    const { positions, local, depth, touchedIn } = this;
    const room = Math.max(64, 2 * this.vertices);
    this.positions = new Float64Array(3 * room);
    this.positions.set(positions);
    this.local = new Float64Array(3 * room);
    this.local.set(local);
    this.depth = new Float64Array(room);
    this.depth.set(depth);
    this.touchedIn = new Uint16Array(room);
    this.touchedIn.set(touchedIn);
  }

  /**
   * Halves triangles, together with all that share the halved edge, until each is within the tolerance. Returns the pieces
   * of each triangle; undefined for one that is outside the zone and shares no halved edge.
   */
  private refine(triangles: Uint32Array, deepest: Float64Array): (Pieces | undefined)[] {
    const pieces: (Pieces | undefined)[] = new Array(deepest.length);
    const isMarked = new Uint8Array(this.vertices);
    for (let t = 0; t < deepest.length; t++) {
      if (deepest[t] <= this.toleranceMm) continue;
      const corners = [...triangles.subarray(3 * t, 3 * t + 3)];
      pieces[t] = { corners, settled: [false] };
      for (const v of corners) isMarked[v] = 1;
    }
    // Only these and the triangles that share an edge with them are ever halved.
    const near: number[] = [];
    for (let t = 0; t < deepest.length; t++)
      if (isMarked[triangles[3 * t]] + isMarked[triangles[3 * t + 1]] + isMarked[triangles[3 * t + 2]] >= 2)
        near.push(t);
    for (let pass = 1; ; pass++) {
      const halved = new Map<number, number>();
      for (const place of near) {
        const own = pieces[place];
        if (own === undefined) continue;
        const { corners, settled } = own;
        for (let t = 0; t < settled.length; t++) {
          if (settled[t]) continue;
          const [a, b, c] = [corners[3 * t], corners[3 * t + 1], corners[3 * t + 2]];
          if (this.isFine(a, b, c)) {
            settled[t] = true;
            continue;
          }
          const [v, w] = this.longestEdge(a, b, c);
          const key = edgeKey(v, w);
          if (!halved.has(key)) halved.set(key, this.addBetween(v, w, 0.5));
          this.touchedIn[v] = pass;
          this.touchedIn[w] = pass;
        }
      }
      if (halved.size === 0) return pieces;
      const { touchedIn } = this;
      const isTouched = (a: number, b: number, c: number): boolean =>
        +(touchedIn[a] === pass) + +(touchedIn[b] === pass) + +(touchedIn[c] === pass) >= 2;
      const emit = (out: Pieces, a: number, b: number, c: number, isSettled: boolean): void => {
        const [v, w, u, middle] = this.longestHalved(a, b, c, halved);
        if (middle < 0) {
          out.corners.push(a, b, c);
          out.settled.push(isSettled);
          return;
        }
        emit(out, v, middle, u, false);
        emit(out, middle, w, u, false);
      };
      for (const t of near) {
        const own = pieces[t];
        if (own === undefined) {
          const [a, b, c] = [triangles[3 * t], triangles[3 * t + 1], triangles[3 * t + 2]];
          if (!isTouched(a, b, c)) continue;
          const next: Pieces = { corners: [], settled: [] };
          emit(next, a, b, c, true);
          if (next.settled.length > 1) pieces[t] = next;
          continue;
        }
        const { corners } = own;
        let isKept = true;
        for (let k = 0; k < corners.length && isKept; k += 3)
          isKept = !isTouched(corners[k], corners[k + 1], corners[k + 2]);
        if (isKept) continue;
        const next: Pieces = { corners: [], settled: [] };
        for (let k = 0; k < own.settled.length; k++) {
          const [a, b, c] = [corners[3 * k], corners[3 * k + 1], corners[3 * k + 2]];
          if (isTouched(a, b, c)) emit(next, a, b, c, own.settled[k]);
          else {
            next.corners.push(a, b, c);
            next.settled.push(own.settled[k]);
          }
        }
        pieces[t] = next;
      }
    }
  }

  /**
   * Whether the kept part of the triangle reaches into the zone by no more than the tolerance, or the triangle itself
   * is that small.
   */
  private isFine(a: number, b: number, c: number): boolean {
    if (this.deepestOf([a, b, c]) <= this.toleranceMm) return true;
    if (this.deepestOf(this.keptOf(a, b, c)) <= this.toleranceMm) return true;
    const [v, w] = this.longestEdge(a, b, c);
    return this.length(v, w) <= this.toleranceMm;
  }

  /** Upper bound of the depth of triangles in the zone; negative if they are outside it. */
  private deepestOf(corners: readonly number[]): number {
    const { local, piece } = this;
    let deepest = Number.NEGATIVE_INFINITY;
    for (let t = 0; t < corners.length; t += 3) {
      for (let k = 0; k < 9; k++) piece[k] = local[3 * corners[t + ((k / 3) | 0)] + (k % 3)];
      deepest = Math.max(deepest, this.region.deepestMm(piece));
    }
    return deepest;
  }

  /**
   * The part of the triangle outside the zone: the triangle itself, nothing, or the part beyond the line between two
   * crossings.
   */
  private keptOf(a: number, b: number, c: number): number[] {
    const { depth } = this;
    const inside = +(depth[a] >= 0) + +(depth[b] >= 0) + +(depth[c] >= 0);
    if (inside === 3) return [];
    if (inside === 0) return [a, b, c];
    const odd = inside === 1;
    const [u, v, w] = depth[a] >= 0 === odd ? [a, b, c] : depth[b] >= 0 === odd ? [b, c, a] : [c, a, b];
    const uv = this.crossing(u, v);
    const uw = this.crossing(u, w);
    return odd ? [uv, v, w, uv, w, uw] : [u, uv, uw];
  }

  /** The vertex where the edge of the zone crosses an edge with one end inside. */
  private crossing(v: number, w: number): number {
    const key = edgeKey(v, w);
    const cached = this.crossings.get(key);
    if (cached !== undefined) return cached;
    const { local, depth } = this;
    const [from, to] = depth[v] >= 0 ? [3 * v, 3 * w] : [3 * w, 3 * v];
    const s = this.region.exit(
      local[from],
      local[from + 1],
      local[from + 2],
      local[to],
      local[to + 1],
      local[to + 2],
    );
    const vertex = this.addBetween(from / 3, to / 3, s);
    this.crossings.set(key, vertex);
    return vertex;
  }

  private addBetween(v: number, w: number, s: number): number {
    const vertex = this.vertices;
    if (vertex === this.depth.length) this.grow();
    const p = this.positions;
    for (let k = 0; k < 3; k++) p[3 * vertex + k] = p[3 * v + k] + s * (p[3 * w + k] - p[3 * v + k]);
    this.place();
    return vertex;
  }

  private length(v: number, w: number): number {
    const p = this.positions;
    const dx = p[3 * v] - p[3 * w];
    const dy = p[3 * v + 1] - p[3 * w + 1];
    const dz = p[3 * v + 2] - p[3 * w + 2];
    return Math.sqrt(dx * dx + dy * dy + dz * dz);
  }

  private longestEdge(a: number, b: number, c: number): [number, number] {
    const ab = this.length(a, b);
    const bc = this.length(b, c);
    const ca = this.length(c, a);
    return ab >= bc && ab >= ca ? [a, b] : bc >= ca ? [b, c] : [c, a];
  }

  /** The longest halved edge, its opposite corner and its middle; middle -1 if none is halved. */
  private longestHalved(
    a: number,
    b: number,
    c: number,
    halved: ReadonlyMap<number, number>,
  ): [number, number, number, number] {
    let longest = -1;
    let out: [number, number, number, number] = [a, b, c, -1];
    for (const [v, w, u] of [
      [a, b, c],
      [b, c, a],
      [c, a, b],
    ]) {
      const middle = halved.get(edgeKey(v, w));
      if (middle === undefined) continue;
      const length = this.length(v, w);
      if (length <= longest) continue;
      longest = length;
      out = [v, w, u, middle];
    }
    return out;
  }

  /** A mesh with only the used vertices, in the order of their first use. */
  private compact(triangles: readonly number[]): Mesh {
    const newOf = new Int32Array(this.vertices).fill(-1);
    const positions: number[] = [];
    const renumbered = new Uint32Array(triangles.length);
    let count = 0;
    for (let i = 0; i < triangles.length; i++) {
      const v = triangles[i];
      if (newOf[v] < 0) {
        newOf[v] = count++;
        for (let k = 0; k < 3; k++) positions.push(this.positions[3 * v + k]);
      }
      renumbered[i] = newOf[v];
    }
    return { positions: Float64Array.from(positions), triangles: renumbered };
  }
}
