import type { Rigid } from '../math/rigid.ts';
import { clipToBox, polygon } from './clipToBox.ts';
import { closestOnTree, near, pointTriangleDistanceSq } from './closestPoint.ts';
import { insideTree } from './inside.ts';
import { MaxHeap } from './maxHeap.ts';
import type { Tree } from './tree.ts';
import type { Trim } from './trim.ts';

/**
 * Looks at this many points at most, unless told; after that the bound says how much is left open. That is little but
 * where a surface is evenly deep over many triangles, so that all of it has to be cut down to size: two washers of 256 sides, 4 thick,
 * one 1 into the other, are 2 deep with up to 1.4 open, and 144 tiles on 144 others touch with 3.4 open. Bounds from the
 * flat discs about nearest points, and from the mean distance of two of them on opposite sides, were tried: 1.4 became
 * 0.7, 3.4 stayed, and the searches of evenly deep parts took two to five times as long.
 */
const MOST_LOOKS = 8000;
/** A depth is found to the tolerance or to this share of itself, whichever is more. */
const SHARE = 0.01;
/** Share of a squared distance within which rounding cannot put a point on the other side. */
const SAME_SIDE = 0.999;
/** Of each piece: its middle, and how far that is inside the closed surface (negative outside). */
const MIDDLE = 4;

/**
 * The deepest point of a surface inside a closed one, by refinement: boxes of the surface's tree, then triangles, then
 * halves of triangles, those that may hold the deepest point first, until none can be deeper than the best one by more
 * than the tolerance. Of a triangle only what lies in the box of the closed surface is looked at.
 *
 * What a piece can hold at most: each of its points is at most as deep as it is far from any one triangle of the
 * closed surface, and that distance is convex, so greatest at a corner of the piece. Where the middle of the piece is
 * outside by d, its points, none further than r from there, are at most r - d deep.
 */
export class DepthSearch {
  /** Depth of the deepest point found; what the search started from where none is deeper. */
  depthMm = 0;
  /** No point is deeper than this. */
  boundMm = 0;
  /** The deepest point and the nearest point of the closed surface, in the frame of the closed surface. */
  readonly point = new Float64Array(3);
  readonly nearest = new Float64Array(3);
  private readonly surface: Tree;
  private readonly closed: Tree;
  private readonly trim: Trim | undefined;
  private closedFromSurface: Rigid = new Float64Array(12);
  private toleranceMm = 0;
  private looks = 0;
  private readonly mostLooks: number;
  private readonly heap = new MaxHeap();
  /** Pieces: a node of the surface's tree, or -1 and the nine coordinates of a triangle in `corners`. */
  private readonly nodes: number[] = [];
  private readonly cornersAt: number[] = [];
  private readonly corners: number[] = [];
  private readonly middles: number[] = [];
  /** Triangle of the closed surface that was nearest to the middle of a piece. */
  private readonly nearTriangles: number[] = [];
  /** The piece that is being opened; -1 for none. */
  private parent = -1;
  /** Corners of the piece that is looked at: eight of a box or three of a triangle. */
  private readonly hull = new Float64Array(24);

  /** `trim`: of what zones leave of the surface at the pose alone. */
  constructor(surface: Tree, closed: Tree, mostLooks = MOST_LOOKS, trim?: Trim) {
    this.mostLooks = mostLooks;
    this.trim = trim;
    this.surface = surface;
    this.closed = closed;
  }

  /** Depths up to `leastMm` are of no interest (a point as deep is known already). */
  run(closedFromSurface: Rigid, toleranceMm: number, leastMm: number): void {
    this.search(closedFromSurface, toleranceMm, leastMm, this.mostLooks, false);
  }

  /**
   * Whether a point deeper than this is found: the first that is ends the search, and `boundMm` says how deep any can be
   * only where there is none.
   */
  finds(closedFromSurface: Rigid, beyondMm: number, mostLooks: number): boolean {
    this.search(closedFromSurface, 0, beyondMm, mostLooks, true);
    return this.depthMm > beyondMm;
  }

  private search(
    closedFromSurface: Rigid,
    toleranceMm: number,
    leastMm: number,
    mostLooks: number,
    anyDeeper: boolean,
  ): void {
    const { heap } = this;
    this.closedFromSurface = closedFromSurface;
    this.toleranceMm = toleranceMm;
    this.looks = 0;
    this.depthMm = leastMm;
    this.boundMm = leastMm;
    heap.clear();
    for (const list of [this.nodes, this.cornersAt, this.corners, this.middles, this.nearTriangles])
      list.length = 0;
    this.parent = -1;
    if (this.surface.right.length > 0) this.lookAtNode(0);
    while (heap.size > 0) {
      if (anyDeeper && this.depthMm > leastMm) {
        this.boundMm = Number.POSITIVE_INFINITY;
        break;
      }
      if (this.isNoDeeper(heap.topKey)) break;
      if (this.looks > mostLooks) {
        this.boundMm = Math.max(this.boundMm, heap.topKey);
        break;
      }
      this.parent = heap.pop();
      this.open(this.parent);
    }
    this.boundMm = Math.max(this.boundMm, this.depthMm);
  }

  /** Whether a piece of that bound can be left aside; the bound of the whole search then covers it. */
  private isNoDeeper(boundMm: number): boolean {
    if (boundMm > this.depthMm + Math.max(this.toleranceMm, SHARE * this.depthMm)) return false;
    this.boundMm = Math.max(this.boundMm, boundMm);
    return true;
  }

  private open(piece: number): void {
    const node = this.nodes[piece];
    if (node < 0) {
      this.halve(this.cornersAt[piece]);
      return;
    }
    const { right, first, corners } = this.surface;
    if (right[node] !== 0) {
      this.lookAtNode(node + 1);
      this.lookAtNode(right[node]);
      return;
    }
    const i = 9 * first[node];
    const { hull, closed } = this;
    for (let k = 0; k < 9; k += 3) this.place(k, corners[i + k], corners[i + k + 1], corners[i + k + 2]);
    const count = clipToBox(hull, closed.boxes, 0);
    for (let c = 0; c < 3 * count; c += 3) {
      if (this.isLeftOut(polygon, c)) continue;
      this.lookAtPoint(polygon[c], polygon[c + 1], polygon[c + 2]);
      if (this.insideMm > this.depthMm) this.keep(polygon[c], polygon[c + 1], polygon[c + 2]);
    }
    for (let c = 3; c + 3 < 3 * count; c += 3) {
      for (let k = 0; k < 3; k++) {
        hull[k] = polygon[k];
        hull[3 + k] = polygon[c + k];
        hull[6 + k] = polygon[c + 3 + k];
      }
      this.lookAtTriangle();
    }
  }

  /** Brings a point of the surface into the frame of the closed surface, as a corner of the piece looked at. */
  private place(k: number, x: number, y: number, z: number): void {
    const t = this.closedFromSurface;
    this.hull[k] = t[0] * x + t[1] * y + t[2] * z + t[3];
    this.hull[k + 1] = t[4] * x + t[5] * y + t[6] * z + t[7];
    this.hull[k + 2] = t[8] * x + t[9] * y + t[10] * z + t[11];
  }

  private lookAtNode(node: number): void {
    const { boxes, radii } = this.surface;
    const b = 6 * node;
    for (let corner = 0; corner < 8; corner++) {
      this.place(
        3 * corner,
        boxes[b] + (corner & 1 ? boxes[b + 3] : -boxes[b + 3]),
        boxes[b + 1] + (corner & 2 ? boxes[b + 4] : -boxes[b + 4]),
        boxes[b + 2] + (corner & 4 ? boxes[b + 5] : -boxes[b + 5]),
      );
    }
    const { hull } = this;
    const x = (hull[0] + hull[21]) / 2;
    const y = (hull[1] + hull[22]) / 2;
    const z = (hull[2] + hull[23]) / 2;
    this.look(8, x, y, z, radii[node], node);
  }

  /** Looks at the triangle that `hull` holds. */
  private lookAtTriangle(): void {
    const { hull } = this;
    const x = (hull[0] + hull[3] + hull[6]) / 3;
    const y = (hull[1] + hull[4] + hull[7]) / 3;
    const z = (hull[2] + hull[5] + hull[8]) / 3;
    let radiusSq = 0;
    for (let k = 0; k < 9; k += 3) {
      const [dx, dy, dz] = [hull[k] - x, hull[k + 1] - y, hull[k + 2] - z];
      radiusSq = Math.max(radiusSq, dx * dx + dy * dy + dz * dz);
    }
    this.look(3, x, y, z, Math.sqrt(radiusSq), -1);
  }

  /**
   * Bounds the piece whose corners `hull` holds, with its middle and radius, and puts it on the heap unless it can be
   * left aside. The middle of a triangle (node -1) is a point of the surface.
   */
  private look(count: number, x: number, y: number, z: number, radius: number, node: number): void {
    let bound = Number.POSITIVE_INFINITY;
    if (this.trim !== undefined && this.isInZone(count, this.trim)) return;
    if (this.parent >= 0) {
      bound = this.furthestCorner(count, this.nearTriangles[this.parent]);
      if (this.isNoDeeper(bound)) return;
    }
    this.lookAtPoint(x, y, z);
    const { insideMm } = this;
    const { triangle } = near;
    if (node < 0 && insideMm > this.depthMm && !this.isLeftOut([x, y, z], 0)) this.keep(x, y, z);
    bound = Math.min(bound, this.furthestCorner(count, triangle));
    if (insideMm < 0) bound = Math.min(bound, radius + insideMm);
    if (this.isNoDeeper(bound)) return;
    const piece = this.nodes.length;
    this.nodes.push(node);
    this.nearTriangles.push(triangle);
    this.middles.push(x, y, z, insideMm);
    this.cornersAt.push(this.corners.length);
    if (node < 0) for (let k = 0; k < 9; k++) this.corners.push(this.hull[k]);
    this.heap.push(bound, piece);
  }

  /** Whether a zone leaves nothing of the piece whose corners `hull` holds. */
  private isInZone(count: number, trim: Trim): boolean {
    const { hull, onSurface } = this;
    for (let k = 0; k < 3 * count; k += 3) this.bringBack(hull, k, k);
    return trim.takes(onSurface, count);
  }

  /** Whether a point, in the frame of the closed surface, is in a zone. */
  private isLeftOut(point: ArrayLike<number>, at: number): boolean {
    if (this.trim === undefined) return false;
    this.bringBack(point, at, 0);
    const [x, y, z] = this.onSurface;
    return !this.trim.isOutside(x, y, z);
  }

  private readonly onSurface = new Float64Array(24);

  /** Brings a point into the frame of the surface. */
  private bringBack(point: ArrayLike<number>, at: number, to: number): void {
    const { closedFromSurface: t, onSurface } = this;
    const x = point[at] - t[3];
    const y = point[at + 1] - t[7];
    const z = point[at + 2] - t[11];
    for (let k = 0; k < 3; k++) onSurface[to + k] = t[k] * x + t[4 + k] * y + t[8 + k] * z;
  }

  /** How far the point last looked at is inside the closed surface, negative outside; where it is nearest. */
  private insideMm = 0;
  private readonly foot = new Float64Array(3);

  private lookAtPoint(x: number, y: number, z: number): void {
    const { closed, parent, foot, middles } = this;
    this.looks++;
    let limitSq = Number.POSITIVE_INFINITY;
    let triangle = -1;
    if (parent >= 0) {
      triangle = this.nearTriangles[parent];
      limitSq = pointTriangleDistanceSq(x, y, z, closed.corners, triangle);
      foot.set(near.point);
    }
    const sq = closestOnTree(closed, x, y, z, limitSq);
    if (near.triangle >= 0) foot.set(near.point);
    else near.triangle = triangle;
    const d = Math.sqrt(sq);
    this.insideMm = this.isInside(x, y, z, MIDDLE * parent, middles) ? d : -d;
  }

  /** Between a middle and a point nearer to it than the closed surface is, that surface does not pass. */
  private isInside(x: number, y: number, z: number, middle: number, middles: readonly number[]): boolean {
    if (middle >= 0) {
      const dx = x - middles[middle];
      const dy = y - middles[middle + 1];
      const dz = z - middles[middle + 2];
      const insideMm = middles[middle + 3];
      if (dx * dx + dy * dy + dz * dz < SAME_SIDE * insideMm * insideMm) return insideMm > 0;
    }
    return insideTree(this.closed, x, y, z);
  }

  /** Keeps the point last looked at as the deepest. */
  private keep(x: number, y: number, z: number): void {
    this.depthMm = this.insideMm;
    this.point[0] = x;
    this.point[1] = y;
    this.point[2] = z;
    this.nearest.set(this.foot);
  }

  private furthestCorner(count: number, triangle: number): number {
    const { hull } = this;
    let sq = 0;
    for (let k = 0; k < 3 * count; k += 3) {
      sq = Math.max(
        sq,
        pointTriangleDistanceSq(hull[k], hull[k + 1], hull[k + 2], this.closed.corners, triangle),
      );
    }
    return Math.sqrt(sq);
  }

  /** Halves a triangle across its longest edge and looks at both halves. */
  private halve(at: number): void {
    const { corners } = this;
    let longest = -1;
    let edge = 0;
    for (let e = 0; e < 3; e++) {
      const v = at + 3 * e;
      const w = at + 3 * ((e + 1) % 3);
      const [dx, dy, dz] = [
        corners[w] - corners[v],
        corners[w + 1] - corners[v + 1],
        corners[w + 2] - corners[v + 2],
      ];
      const sq = dx * dx + dy * dy + dz * dz;
      if (sq <= longest) continue;
      longest = sq;
      edge = e;
    }
    const v = at + 3 * edge;
    const w = at + 3 * ((edge + 1) % 3);
    const u = at + 3 * ((edge + 2) % 3);
    for (const end of [v, w]) {
      for (let k = 0; k < 3; k++) {
        this.hull[k] = corners[end + k];
        this.hull[3 + k] = (corners[v + k] + corners[w + k]) / 2;
        this.hull[6 + k] = corners[u + k];
      }
      this.lookAtTriangle();
    }
  }
}

/** How far a point is inside a closed surface, mm; negative outside. */
export function depthAt(closed: Tree, x: number, y: number, z: number): number {
  const mm = Math.sqrt(closestOnTree(closed, x, y, z, Number.POSITIVE_INFINITY));
  return insideTree(closed, x, y, z) ? mm : -mm;
}
