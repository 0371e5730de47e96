import type { Rigid } from '../math/rigid.ts';
import { clipToBox, polygon } from './clipToBox.ts';
import { closestOnTree, pointTriangleDistanceSq } from './closestPoint.ts';
import { DepthProbe, type KnownPoint } from './depthProbe.ts';
import { ExitPlanes } from './exitPlanes.ts';
import { insideTree } from './inside.ts';
import { MaxHeap } from './maxHeap.ts';
import { BOX } from './orientedBoxes.ts';
import { axisToHalve, cornersOfBox, halveBox, movedBox, shortenBox } from './partOfBox.ts';
import { type Tree, withOrientedBoxes } from './tree.ts';
import { ROUNDING } from './triangleDistance.ts';
import type { Trim } from './trim.ts';

/** Points and planes that a search looks at, unless told; after that the bound says how much is left open. */
const MOST_LOOKS = 10_000;
/** A depth is first found to this, or to this share of itself, whichever is more. */
const COARSE_MM = 0.1;
const COARSE_SHARE = 0.04;
/** Then to the tolerance, or to this share, if so many looks are enough. */
const SHARE = 0.01;
const FINE_LOOKS = 2000;

/** A box along which the depth changes by less than this share of its half length is not halved there. */
const EVEN = 0.02;

/** A part of the surface: of a node's box, or of a triangle. */
interface Piece {
  /** The node; -1 for a part of a triangle. */
  node: number;
  /** The part of the node's box, `BOX` numbers, or nine coordinates; in the frame of the closed surface. */
  numbers: Float64Array;
  /** The middle of either. */
  middle: KnownPoint;
}

/**
 * The deepest point of a surface inside a closed one, by refinement: parts of the boxes of the surface's tree, then of its
 * triangles, those that may hold the deepest point first, until none can be deeper than the best one by more than the
 * tolerance. Only what lies in the box of the closed surface is looked at.
 *
 * Upper bounds of a piece: each of its points is at most as deep as it is far from any one triangle of the closed surface,
 * and that distance is convex, so greatest at a corner of the piece. Where the middle of the piece is outside by d, its
 * points, none further than r from there, are at most r - d deep. Last, `ExitPlanes`.
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
  private readonly probe: DepthProbe;
  private readonly planes: ExitPlanes;
  private closedFromSurface: Rigid = new Float64Array(12);
  private toleranceMm = 0;
  private share = SHARE;
  /** Rounding of coordinates, mm. */
  private slackMm = 0;
  private readonly mostLooks: number;
  private readonly heap = new MaxHeap();
  private readonly pieces: Piece[] = [];
  /** The piece that is being opened. */
  private parent: Piece | undefined;
  /** Corners of the piece that is looked at: eight of a box or three of a triangle. */
  private readonly hull = new Float64Array(24);
  private readonly box = new Float64Array(BOX);

  /** `trim`: of what zones leave of the surface at the pose alone. */
  constructor(surface: Tree, closed: Tree, mostLooks = MOST_LOOKS, trim?: Trim) {
    this.mostLooks = mostLooks;
    this.trim = trim;
    this.surface = surface;
    this.closed = closed;
    this.probe = new DepthProbe(closed);
    this.planes = new ExitPlanes(closed, this.probe);
  }

  /** Depths up to `leastMm` are of no interest (a point as deep is known already). */
  run(closedFromSurface: Rigid, toleranceMm: number, leastMm: number): void {
    const coarseMm = Math.max(toleranceMm, COARSE_MM);
    this.search(closedFromSurface, coarseMm, COARSE_SHARE, leastMm, this.mostLooks, false);
    const { boundMm, depthMm } = this;
    const isFine = boundMm <= depthMm + Math.max(toleranceMm, SHARE * depthMm);
    const isHopeless = boundMm > depthMm + Math.max(coarseMm, COARSE_SHARE * depthMm);
    if (isFine || (isHopeless && depthMm > 0)) return;
    this.search(closedFromSurface, toleranceMm, SHARE, depthMm, Math.min(this.mostLooks, FINE_LOOKS), false);
    this.boundMm = Math.min(this.boundMm, boundMm);
  }

  /**
   * Whether a point deeper than this is found: the first that is ends the search, and `boundMm` says how deep any can be
   * only where there is none.
   */
  finds(closedFromSurface: Rigid, beyondMm: number, mostLooks: number): boolean {
    this.search(closedFromSurface, 0, SHARE, beyondMm, mostLooks, true);
    return this.depthMm > beyondMm;
  }

  private search(
    closedFromSurface: Rigid,
    toleranceMm: number,
    share: number,
    leastMm: number,
    mostLooks: number,
    anyDeeper: boolean,
  ): void {
    const { heap, pieces, probe, surface, closed } = this;
    const [x, y, z] = [closedFromSurface[3], closedFromSurface[7], closedFromSurface[11]];
    withOrientedBoxes(surface);
    withOrientedBoxes(closed);
    this.closedFromSurface = closedFromSurface;
    this.toleranceMm = toleranceMm;
    this.share = share;
    this.slackMm = ROUNDING * (surface.reachMm + closed.reachMm + Math.abs(x) + Math.abs(y) + Math.abs(z));
    probe.looks = 0;
    this.depthMm = leastMm;
    this.boundMm = leastMm;
    heap.clear();
    pieces.length = 0;
    this.parent = undefined;
    if (surface.right.length > 0 && closed.right.length > 0) this.enter(0, closed.oriented);
    while (heap.size > 0) {
      if (anyDeeper && this.depthMm > leastMm) {
        this.boundMm = Number.POSITIVE_INFINITY;
        break;
      }
      const boundMm = heap.topKey;
      if (this.isNoDeeper(boundMm)) break;
      if (probe.looks > mostLooks) {
        this.boundMm = Math.max(this.boundMm, boundMm);
        break;
      }
      const piece = pieces[heap.pop()];
      const lowerMm = this.boundByPlanes(piece, boundMm);
      if (this.isNoDeeper(lowerMm)) continue;
      if (lowerMm < boundMm) this.add(piece, lowerMm);
      else this.open(piece);
    }
    this.boundMm = Math.max(this.boundMm, this.depthMm);
  }

  /** How much deeper than this a point may be and still count as no deeper. */
  private openMm(depthMm: number): number {
    return Math.max(this.toleranceMm, this.share * depthMm);
  }

  /** Whether a piece of that bound can be left aside; the bound of the whole search then covers it. */
  private isNoDeeper(boundMm: number): boolean {
    if (boundMm > this.depthMm + this.openMm(this.depthMm)) return false;
    this.boundMm = Math.max(this.boundMm, boundMm);
    return true;
  }

  private boundByPlanes({ node, numbers, middle }: Piece, boundMm: number): number {
    const { hull, depthMm } = this;
    if (node < 0) hull.set(numbers);
    else cornersOfBox(hull, numbers);
    return this.planes.boundOf(hull, node < 0 ? 3 : 8, middle, boundMm, {
      doneMm: depthMm + this.openMm(depthMm),
      marginMm: this.openMm(Math.max(depthMm, middle.insideMm)) / 2,
    });
  }

  private add(piece: Piece, boundMm: number): void {
    this.pieces.push(piece);
    this.heap.push(boundMm, this.pieces.length - 1);
  }

  private open(piece: Piece): void {
    const { surface, box } = this;
    const { node, numbers, middle } = piece;
    this.parent = piece;
    if (node < 0) {
      this.halve(numbers);
      return;
    }
    if (surface.right[node] === 0) {
      this.openLeaf(node, numbers);
      return;
    }
    if (middle.insideMm > this.depthMm) this.tryMiddleTriangle(node, numbers);
    const axis = axisToHalve(surface, node, numbers);
    if (axis < 0 || this.isEvenAlong(numbers, axis, middle)) {
      this.enter(node + 1, numbers);
      this.enter(surface.right[node], numbers);
      return;
    }
    for (const end of [-1, 1]) {
      box.set(numbers);
      halveBox(box, axis, end);
      this.lookAtBox(node);
    }
  }

  /** Whether a box is about as deep at an end of an axis as in its middle: halving it there does not help. */
  private isEvenAlong(box: Float64Array, axis: number, middle: KnownPoint): boolean {
    const { probe } = this;
    const half = box[12 + axis];
    const a = 3 + 3 * axis;
    probe.look(middle.x + half * box[a], middle.y + half * box[a + 1], middle.z + half * box[a + 2], middle);
    return Math.abs(probe.insideMm - middle.insideMm) < EVEN * half;
  }

  /** Looks at the part of a node's box that lies in another box. */
  private enter(node: number, within: Float64Array): void {
    movedBox(this.box, this.closedFromSurface, this.surface.oriented, node);
    if (shortenBox(this.box, within, this.slackMm)) this.lookAtBox(node);
  }

  /** Looks at one point of the surface in a piece whose middle is deep: a deep point found early saves most of a search. */
  private tryMiddleTriangle(node: number, within: Float64Array): void {
    const { first, count } = this.surface;
    const corners = this.clipTriangle(first[node] + (count[node] >> 1), within);
    if (corners === 0) return;
    let [x, y, z] = [0, 0, 0];
    for (let c = 0; c < 3 * corners; c += 3) {
      x += polygon[c] / corners;
      y += polygon[c + 1] / corners;
      z += polygon[c + 2] / corners;
    }
    this.tryPoint(x, y, z);
  }

  /** Leaves in `polygon` what of a triangle of the surface lies in two boxes; returns its number of corners. */
  private clipTriangle(triangle: number, within: Float64Array): number {
    const { closed, slackMm, closedFromSurface: t } = this;
    const { corners } = this.surface;
    for (let k = 0, i = 9 * triangle; k < 9; k += 3, i += 3) {
      const [x, y, z] = [corners[i], corners[i + 1], corners[i + 2]];
      polygon[k] = t[0] * x + t[1] * y + t[2] * z + t[3];
      polygon[k + 1] = t[4] * x + t[5] * y + t[6] * z + t[7];
      polygon[k + 2] = t[8] * x + t[9] * y + t[10] * z + t[11];
    }
    return clipToBox(clipToBox(3, within, slackMm), closed.oriented, slackMm);
  }

  private openLeaf(node: number, within: Float64Array): void {
    const { hull } = this;
    const count = this.clipTriangle(this.surface.first[node], within);
    for (let c = 0; c < 3 * count; c += 3) this.tryPoint(polygon[c], polygon[c + 1], polygon[c + 2]);
    for (let c = 3; c + 3 < 3 * count; c += 3) {
      for (let k = 0; k < 3; k++) {
        hull[k] = polygon[k];
        hull[3 + k] = polygon[c + k];
        hull[6 + k] = polygon[c + 3 + k];
      }
      this.lookAtTriangle();
    }
  }

  /** Looks at the part of a node's box that `box` holds. */
  private lookAtBox(node: number): void {
    const { box, hull } = this;
    cornersOfBox(hull, box);
    this.look(8, box[0], box[1], box[2], box[15], node);
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
    const { probe, parent } = this;
    let bound = Number.POSITIVE_INFINITY;
    if (this.trim !== undefined && this.isInZone(count, this.trim)) return;
    if (parent !== undefined) {
      bound = this.furthestCorner(count, parent.middle.triangle);
      if (this.isNoDeeper(bound)) return;
    }
    if (node < 0) this.tryPoint(x, y, z);
    else probe.look(x, y, z, parent?.middle);
    const { insideMm, triangle } = probe;
    bound = Math.min(bound, this.furthestCorner(count, triangle));
    if (insideMm < 0) bound = Math.min(bound, radius + insideMm);
    if (this.isNoDeeper(bound)) return;
    const numbers = node < 0 ? this.hull.slice(0, 9) : this.box.slice();
    this.add({ node, numbers, middle: { x, y, z, insideMm, triangle } }, bound);
  }

  /** Looks at a point of the surface; keeps it if it is the deepest, and in no zone. */
  private tryPoint(x: number, y: number, z: number): void {
    const { probe, point } = this;
    probe.look(x, y, z, this.parent?.middle);
    if (!(probe.insideMm > this.depthMm) || this.isLeftOut(x, y, z)) return;
    this.depthMm = probe.insideMm;
    point[0] = x;
    point[1] = y;
    point[2] = z;
    this.nearest.set(probe.foot);
  }

  /** Whether a zone leaves nothing of the piece whose corners `hull` holds. */
  private isInZone(count: number, trim: Trim): boolean {
    const { hull, onSurface } = this;
    for (let k = 0; k < 3 * count; k += 3) this.bringBack(hull[k], hull[k + 1], hull[k + 2], k);
    return trim.takes(onSurface, count);
  }

  /** Whether a point, in the frame of the closed surface, is in a zone. */
  private isLeftOut(x: number, y: number, z: number): boolean {
    if (this.trim === undefined) return false;
    this.bringBack(x, y, z, 0);
    const { onSurface } = this;
    return !this.trim.isOutside(onSurface[0], onSurface[1], onSurface[2]);
  }

  private readonly onSurface = new Float64Array(24);

  /** Brings a point into the frame of the surface. */
  private bringBack(x: number, y: number, z: number, to: number): void {
    const { closedFromSurface: t, onSurface } = this;
    for (let k = 0; k < 3; k++)
      onSurface[to + k] = t[k] * (x - t[3]) + t[4 + k] * (y - t[7]) + t[8 + k] * (z - t[11]);
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
  private halve(corners: Float64Array): void {
    let longest = -1;
    let edge = 0;
    for (let e = 0; e < 3; e++) {
      const v = 3 * e;
      const w = 3 * ((e + 1) % 3);
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
    const v = 3 * edge;
    const w = 3 * ((edge + 1) % 3);
    const u = 3 * ((edge + 2) % 3);
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
