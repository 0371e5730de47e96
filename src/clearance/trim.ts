import type { Zone } from '../solids/solid.ts';
import { cutTriangles } from './cutTriangle.ts';
import type { Tree } from './tree.ts';
import { type Region, regionOf } from './zoneRegion.ts';

const WHOLE = 0;
const CUT = 1;
/** Met by more than one zone. */
const CUT_OFTEN = 2;

/** What is left of a triangle. */
export interface Parts {
  /** Triangles of nine coordinates. */
  triangles: Float64Array;
  /** Of each of them least x y z, greatest x y z. */
  boxes: Float64Array;
}

/**
 * What zones leave of a surface where they stand at one pose: for zones that ride on the other body, so that the surface
 * would have to be cut anew at every pose. Only triangles that a zone meets are cut, each by itself and only when it is
 * asked for; the tree stays as it is.
 *
 * Tried first: the mesh within reach of the other body cut at each pose, and put into a tree of its own. Of plate upright
 * and hub bolts a pose took 43 ms, of plate upright and caliper 7 ms; so they take 4 and 1 ms, depth of an overlap and all.
 */
export class Trim {
  /**
   * What is left of the triangles that zones meet is right for zones smaller by at most this, mm: how closely their
   * edges are followed, however closely those of the triangles cut so far are, so that no answer depends on which were.
   */
  errorMm = 0;
  private toleranceMm = 0;
  private readonly tree: Tree;
  private regions: readonly Region[] = [];
  /** Of each triangle. */
  private readonly states: Uint8Array;
  /** Triangles that a zone meets. */
  private readonly met: number[] = [];
  private readonly parts = new Map<number, Parts>();
  private readonly local = new Float64Array(9);
  /** Made when first needed. */
  private vertices: Vertices | undefined;
  private knownPieces: Float64Array | undefined;

  constructor(tree: Tree) {
    this.tree = tree;
    this.states = new Uint8Array(tree.corners.length / 9);
  }

  /**
   * Places the zones, in the frame of the surface; their edges are followed to the tolerance, mm. Throws a RangeError for
   * a zone without size or axis.
   */
  place(zones: readonly Zone[], toleranceMm: number): void {
    this.regions = zones.map(regionOf);
    this.toleranceMm = toleranceMm;
    for (const i of this.met) this.states[i] = WHOLE;
    this.met.length = 0;
    this.parts.clear();
    this.knownPieces = undefined;
    for (const region of this.regions) this.mark(region);
    this.errorMm = this.met.length > 0 ? toleranceMm : 0;
  }

  /** Whether a point is in no zone. */
  isOutside(x: number, y: number, z: number): boolean {
    for (const region of this.regions) if (region.depthMm(x, y, z) > 0) return false;
    return true;
  }

  /** Whether one zone takes all that lies between so many points. */
  takes(points: Float64Array, count: number): boolean {
    return this.regions.some((region) => {
      // A zone is convex.
      for (let k = 0; k < 3 * count; k += 3)
        if (region.depthMm(points[k], points[k + 1], points[k + 2]) < 0) return false;
      return true;
    });
  }

  /** Whether the zones leave nothing of a surface. */
  get leavesNothing(): boolean {
    return this.met.length > 0 && this.met.length === this.states.length && this.pieces.length === 0;
  }

  /** What is left of the triangle at an offset into `corners`, undefined for all of it. */
  left(offset: number): Parts | undefined {
    const i = offset / 9;
    if (this.states[i] === WHOLE) return undefined;
    const known = this.parts.get(i);
    if (known !== undefined) return known;
    let triangles: number[] = Array.from(this.tree.corners.subarray(offset, offset + 9));
    for (const region of this.regions) triangles = cutTriangles(triangles, region, this.toleranceMm);
    const parts = { triangles: Float64Array.from(triangles), boxes: boxesOf(triangles) };
    this.parts.set(i, parts);
    return parts;
  }

  /**
   * Of each connected piece of what is left one point, x y z, or more than one. What a convex zone leaves of a triangle
   * hangs together with a corner outside the zone: through a point outside runs a line that keeps clear of the zone, and
   * on its far side the triangle has a corner. So corners say all, but for triangles that several zones meet.
   */
  get pieces(): Float64Array {
    this.knownPieces ??= this.findPieces();
    return this.knownPieces;
  }

  private findPieces(): Float64Array {
    const { tree, states } = this;
    this.vertices ??= verticesOf(tree.corners);
    const { ofCorner, at } = this.vertices;
    const pieceOf = connected(ofCorner, states, at.length);
    /** Of each piece, the vertex furthest outside the zones: one at their edge may lie on the other surface. */
    const furthest = new Int32Array(at.length).fill(-1);
    const furthestMm = new Float64Array(at.length);
    for (let v = 0; v < at.length; v++) {
      const outsideMm = this.outsideMm(at[v]);
      const piece = pieceOf[v];
      if (!(outsideMm >= 0) || (furthest[piece] >= 0 && outsideMm <= furthestMm[piece])) continue;
      furthest[piece] = at[v];
      furthestMm[piece] = outsideMm;
    }
    const found: number[] = [];
    const { corners } = tree;
    for (const c of furthest) if (c >= 0) found.push(corners[c], corners[c + 1], corners[c + 2]);
    for (const t of this.met) {
      if (states[t] !== CUT_OFTEN) continue;
      const p = this.left(9 * t)?.triangles ?? [];
      for (let k = 0; k < p.length; k += 9)
        for (let x = k; x < k + 3; x++) found.push((p[x] + p[x + 3] + p[x + 6]) / 3);
    }
    return Float64Array.from(found);
  }

  /** How far the vertex at a place in `corners` is outside all zones, mm; negative inside one. */
  private outsideMm(c: number): number {
    const { corners } = this.tree;
    let least = Number.POSITIVE_INFINITY;
    for (const region of this.regions)
      least = Math.min(least, -region.depthMm(corners[c], corners[c + 1], corners[c + 2]));
    return least;
  }

  /** Marks the triangles that a zone meets. */
  private mark(region: Region): void {
    const { right, first, boxes, radii, corners } = this.tree;
    const stack = right.length > 0 ? [0] : [];
    for (let node = stack.pop(); node !== undefined; node = stack.pop()) {
      const b = 6 * node;
      // No depth changes by more than the way to the point where it is taken.
      if (region.depthMm(boxes[b], boxes[b + 1], boxes[b + 2]) + radii[node] <= 0) continue;
      if (right[node] !== 0) {
        stack.push(node + 1, right[node]);
        continue;
      }
      const t = first[node];
      for (let k = 0, i = 9 * t; k < 9; k += 3, i += 3)
        region.toLocal(corners[i], corners[i + 1], corners[i + 2], this.local, k);
      if (region.deepestMm(this.local) <= 0) continue;
      if (this.states[t] === WHOLE) this.met.push(t);
      this.states[t] = this.states[t] === WHOLE ? CUT : CUT_OFTEN;
    }
  }
}

function boxesOf(triangles: readonly number[]): Float64Array {
  const boxes = new Float64Array((6 * triangles.length) / 9);
  for (let t = 0, b = 0; t < triangles.length; t += 9, b += 6) {
    for (let k = 0; k < 3; k++) {
      const [x, y, z] = [triangles[t + k], triangles[t + 3 + k], triangles[t + 6 + k]];
      boxes[b + k] = Math.min(x, y, z);
      boxes[b + 3 + k] = Math.max(x, y, z);
    }
  }
  return boxes;
}

/** The vertices of triangles, corners of equal coordinates made one. */
interface Vertices {
  /** Vertex of each corner. */
  ofCorner: Int32Array;
  /** Of each vertex a place in the coordinates of the corners. */
  at: Int32Array;
}

function verticesOf(corners: Float64Array): Vertices {
  const numbers = new Map<string, number>();
  const at: number[] = [];
  const ofCorner = Int32Array.from({ length: corners.length / 3 }, (_, c) => {
    const key = `${corners[3 * c]} ${corners[3 * c + 1]} ${corners[3 * c + 2]}`;
    const known = numbers.get(key);
    if (known !== undefined) return known;
    numbers.set(key, at.length);
    at.push(3 * c);
    return at.length - 1;
  });
  return { ofCorner, at: Int32Array.from(at) };
}

/** Of each vertex, one for all that whole triangles connect. */
function connected(ofCorner: Int32Array, states: Uint8Array, vertices: number): Int32Array {
  const parent = new Int32Array(vertices);
  for (let v = 0; v < vertices; v++) parent[v] = v;
  for (let t = 0; t < states.length; t++) {
    if (states[t] !== WHOLE) continue;
    const root = rootOf(parent, ofCorner[3 * t]);
    parent[rootOf(parent, ofCorner[3 * t + 1])] = root;
    parent[rootOf(parent, ofCorner[3 * t + 2])] = root;
  }
  for (let v = 0; v < vertices; v++) parent[v] = rootOf(parent, v);
  return parent;
}

function rootOf(parent: Int32Array, v: number): number {
  let at = v;
  while (parent[at] !== at) {
    parent[at] = parent[parent[at]];
    at = parent[at];
  }
  return at;
}
