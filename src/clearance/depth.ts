import type { Rigid } from '../math/rigid.ts';
import { clipToBox, polygon } from './clipToBox.ts';
import { closestOnTree, pointTriangleDistanceSq } from './closestPoint.ts';
import { DepthProbe, type EvaluatedPoint } from './depthProbe.ts';
import { ExitPlanes } from './exitPlanes.ts';
import { insideTree } from './inside.ts';
import { MaxHeap } from './maxHeap.ts';
import { BOX } from './orientedBoxes.ts';
import { axisToHalve, cornersOfBox, halveBox, movedBox, shortenBox } from './partOfBox.ts';
import { middleTriangle, openNode, prepareForSearch, type Tree } from './tree.ts';
import { ROUNDING } from './triangleDistance.ts';
import type { Trim } from './trim.ts';

/** Default limit of evaluated points and planes. When it is reached, the bound shows the remaining error. */
const MAX_EVALUATIONS = 10_000;
/** The first search finds the depth to this, or to this share of the depth, whichever is larger. */
const COARSE_MM = 0.1;
const COARSE_SHARE = 0.04;
/** The second search finds it to the tolerance or to this share, if this many evaluations are enough. */
const SHARE = 0.01;
const FINE_EVALUATIONS = 2000;

/** A box is not halved along an axis if the depth changes by less than this share of the half length. */
const EVEN = 0.02;

/** A part of the surface: part of a node's box, or part of a triangle. */
interface Piece {
  /** The node; -1 for a part of a triangle. */
  node: number;
  /**
   * The part of the node's box (`BOX` numbers) or of the triangle (nine coordinates), in the frame of the closed
   * surface.
   */
  numbers: Float64Array;
  /** The middle of the piece. */
  middle: EvaluatedPoint;
}

/**
 * The deepest point of a surface inside a closed surface, by refinement. Pieces are parts of the boxes of the
 * surface's tree, later parts of its triangles. The piece with the greatest bound is refined first, until no piece
 * can be deeper than the best point by more than the tolerance. Only the part of the surface in the box of the closed
 * surface is searched.
 *
 * Upper bounds of a piece: (1) No point is deeper than its distance from any one triangle of the closed surface. That
 * distance is convex, so its greatest value is at a corner of the piece. (2) If the middle of the piece is outside by
 * d and no point is further than r from the middle, no point is deeper than r - d. (3) The bound from `ExitPlanes`.
 */
export class DepthSearch {
  /** Depth of the deepest point found; the start value of the search if no point is deeper. */
  depthMm = 0;
  /** Upper bound of the depth of all points. */
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
  private readonly maxEvaluations: number;
  private readonly heap = new MaxHeap();
  private readonly pieces: Piece[] = [];
  /** The piece being refined. */
  private parent: Piece | undefined;
  /** Corners of the piece being bounded: eight of a box or three of a triangle. */
  private readonly hull = new Float64Array(24);
  private readonly box = new Float64Array(BOX);

  /** `trim`: the cut of the surface by zones at the current pose only. */
  constructor(surface: Tree, closed: Tree, maxEvaluations = MAX_EVALUATIONS, trim?: Trim) {
    this.maxEvaluations = maxEvaluations;
    this.trim = trim;
    this.surface = surface;
    this.closed = closed;
    this.probe = new DepthProbe(closed);
    this.planes = new ExitPlanes(closed, this.probe);
  }

  /** Ignores depths up to `leastMm`, because a point of that depth is already known. */
  run(closedFromSurface: Rigid, toleranceMm: number, leastMm: number): void {
    const coarseMm = Math.max(toleranceMm, COARSE_MM);
    this.search(closedFromSurface, coarseMm, COARSE_SHARE, leastMm, this.maxEvaluations, false);
    const { boundMm, depthMm } = this;
    const isFine = boundMm <= depthMm + Math.max(toleranceMm, SHARE * depthMm);
    const isHopeless = boundMm > depthMm + Math.max(coarseMm, COARSE_SHARE * depthMm);
    if (isFine || (isHopeless && depthMm > 0)) return;
    this.search(
      closedFromSurface,
      toleranceMm,
      SHARE,
      depthMm,
      Math.min(this.maxEvaluations, FINE_EVALUATIONS),
      false,
    );
    this.boundMm = Math.min(this.boundMm, boundMm);
  }

  /**
   * Whether there is a point deeper than `beyondMm`. The search ends at the first one; `boundMm` is valid only if
   * there is none.
   */
  findsDeeper(closedFromSurface: Rigid, beyondMm: number, maxEvaluations: number): boolean {
    this.search(closedFromSurface, 0, SHARE, beyondMm, maxEvaluations, true);
    return this.depthMm > beyondMm;
  }

  private search(
    closedFromSurface: Rigid,
    toleranceMm: number,
    share: number,
    leastMm: number,
    maxEvaluations: number,
    anyDeeper: boolean,
  ): void {
    const { heap, pieces, probe, surface, closed } = this;
    const [x, y, z] = [closedFromSurface[3], closedFromSurface[7], closedFromSurface[11]];
    prepareForSearch(surface);
    prepareForSearch(closed);
    this.closedFromSurface = closedFromSurface;
    this.toleranceMm = toleranceMm;
    this.share = share;
    this.slackMm = ROUNDING * (surface.reachMm + closed.reachMm + Math.abs(x) + Math.abs(y) + Math.abs(z));
    probe.evaluations = 0;
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
      if (probe.evaluations > maxEvaluations) {
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

  /** Depth difference that the search ignores. */
  private openMm(depthMm: number): number {
    return Math.max(this.toleranceMm, this.share * depthMm);
  }

  /** Whether a piece with this bound can be skipped. If so, the bound of the whole search includes it. */
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
      this.boundBox(node);
    }
  }

  /**
   * Whether a box is about as deep at an end of an axis as in its middle. Halving it along that axis does not help
   * then.
   */
  private isEvenAlong(box: Float64Array, axis: number, middle: EvaluatedPoint): boolean {
    const { probe } = this;
    const half = box[12 + axis];
    const a = 3 + 3 * axis;
    probe.evaluate(
      middle.x + half * box[a],
      middle.y + half * box[a + 1],
      middle.z + half * box[a + 2],
      middle,
    );
    return Math.abs(probe.insideMm - middle.insideMm) < EVEN * half;
  }

  /** Bounds the part of a node's box that is inside another box. */
  private enter(node: number, within: Float64Array): void {
    openNode(this.surface, node);
    movedBox(this.box, this.closedFromSurface, this.surface.oriented, node);
    if (shortenBox(this.box, within, this.slackMm)) this.boundBox(node);
  }

  /**
   * Evaluates one point of the surface in a piece whose middle is deep. A deep point found early shortens the search.
   */
  private tryMiddleTriangle(node: number, within: Float64Array): void {
    const corners = this.clipTriangle(middleTriangle(this.surface, node), within);
    if (corners === 0) return;
    let [x, y, z] = [0, 0, 0];
    for (let c = 0; c < 3 * corners; c += 3) {
      x += polygon[c] / corners;
      y += polygon[c + 1] / corners;
      z += polygon[c + 2] / corners;
    }
    this.tryPoint(x, y, z);
  }

  /** Writes the part of a triangle of the surface in two boxes to `polygon`; returns its number of corners. */
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
      this.boundTriangle();
    }
  }

  /** Bounds the part of a node's box in `box`. */
  private boundBox(node: number): void {
    const { box, hull } = this;
    cornersOfBox(hull, box);
    this.boundPiece(8, box[0], box[1], box[2], box[15], node);
  }

  /** Bounds the triangle in `hull`. */
  private boundTriangle(): void {
    const { hull } = this;
    const x = (hull[0] + hull[3] + hull[6]) / 3;
    const y = (hull[1] + hull[4] + hull[7]) / 3;
    const z = (hull[2] + hull[5] + hull[8]) / 3;
    let radiusSq = 0;
    for (let k = 0; k < 9; k += 3) {
      const [dx, dy, dz] = [hull[k] - x, hull[k + 1] - y, hull[k + 2] - z];
      radiusSq = Math.max(radiusSq, dx * dx + dy * dy + dz * dz);
    }
    this.boundPiece(3, x, y, z, Math.sqrt(radiusSq), -1);
  }

  /**
   * Bounds the piece whose corners are in `hull`, with its middle and radius. Adds it to the heap unless it can be
   * skipped. The middle of a triangle (node -1) is a point of the surface.
   */
  private boundPiece(count: number, x: number, y: number, z: number, radius: number, node: number): void {
    const { probe, parent } = this;
    let bound = Number.POSITIVE_INFINITY;
    if (this.trim !== undefined && this.isInZone(count, this.trim)) return;
    if (parent !== undefined) {
      bound = this.furthestCorner(count, parent.middle.triangle);
      if (this.isNoDeeper(bound)) return;
    }
    if (node < 0) this.tryPoint(x, y, z);
    else probe.evaluate(x, y, z, parent?.middle);
    const { insideMm, triangle } = probe;
    bound = Math.min(bound, this.furthestCorner(count, triangle));
    if (insideMm < 0) bound = Math.min(bound, radius + insideMm);
    if (this.isNoDeeper(bound)) return;
    const numbers = node < 0 ? this.hull.slice(0, 9) : this.box.slice();
    this.add({ node, numbers, middle: { x, y, z, insideMm, triangle } }, bound);
  }

  /** Evaluates a point of the surface. Stores it if it is the deepest and in no zone. */
  private tryPoint(x: number, y: number, z: number): void {
    const { probe, point } = this;
    probe.evaluate(x, y, z, this.parent?.middle);
    if (!(probe.insideMm > this.depthMm) || this.isPointInZone(x, y, z)) return;
    this.depthMm = probe.insideMm;
    point[0] = x;
    point[1] = y;
    point[2] = z;
    this.nearest.set(probe.foot);
  }

  /** Whether a zone covers the whole piece whose corners are in `hull`. */
  private isInZone(count: number, trim: Trim): boolean {
    const { hull, onSurface } = this;
    for (let k = 0; k < 3 * count; k += 3) this.toSurfaceFrame(hull[k], hull[k + 1], hull[k + 2], k);
    return trim.covers(onSurface, count);
  }

  /** Whether a point in the frame of the closed surface is in a zone. */
  private isPointInZone(x: number, y: number, z: number): boolean {
    if (this.trim === undefined) return false;
    this.toSurfaceFrame(x, y, z, 0);
    const { onSurface } = this;
    return !this.trim.isOutside(onSurface[0], onSurface[1], onSurface[2]);
  }

  private readonly onSurface = new Float64Array(24);

  /** Transforms a point into the frame of the surface. */
  private toSurfaceFrame(x: number, y: number, z: number, to: number): void {
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

  /** Halves a triangle across its longest edge and bounds both halves. */
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
      this.boundTriangle();
    }
  }
}

/** Depth of a point inside a closed surface, mm; negative outside. */
export function depthAt(closed: Tree, x: number, y: number, z: number): number {
  const mm = Math.sqrt(closestOnTree(closed, x, y, z, Number.POSITIVE_INFINITY));
  return insideTree(closed, x, y, z) ? mm : -mm;
}
