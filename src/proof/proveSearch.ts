import { thickness } from '../clearance/boxGap.ts';
import { BOX } from '../clearance/orientedBoxes.ts';
import type { Tree } from '../clearance/tree.ts';
import { ROUNDING, triangleDistanceSq, trianglePair } from '../clearance/triangleDistance.ts';
import type { MovedBoxes } from './proveBoxes.ts';
import { Direction } from './proveDirection.ts';
import { type Motion, type RelativeMotion, TERM } from './proveMotion.ts';

/** Largest number of halvings of a triangle; then the cell's proof fails. */
const MAX_HALVINGS = 8;

/** The pair of root nodes, which contains all other pairs. */
const ALL = Int32Array.of(0, 0);

/** The bound to prove over a cell, and the limits of the search. */
export interface SearchRequest {
  boundMm: number;
  /** A cell whose motion model has a larger error fails at once. */
  maxRestMm: number;
  /** Pairs of triangles measured before the cell's proof fails. */
  maxTrianglePairs: number;
  /** Pairs of boxes and of triangles evaluated before the cell's proof fails. */
  maxEvaluations: number;
}

/**
 * Shows that two surfaces keep a distance over a whole cell. Both trees are descended together. Over the cell, the
 * points of a mover's box stay within the box at the middle, widened along any direction n by the motion of its
 * centre along n and by a bound on all other motion. Widened boxes that keep the distance need no further search.
 *
 * Two triangles keep the distance if a slab of that width separates them: for a unit vector n, the minimum of n.q
 * over the cell for each corner q of one, less the maximum of n.p of the other; n is fixed to either body. The
 * direction of the nearest points at the middle is tried. Along it the relative motion equals the change of distance,
 * however far the bodies slide past each other, so the loss is of second order in the size of the cell. On a smooth
 * surface, neighbouring pairs are bounded better along the direction of the nearest pair than along their own, so
 * that direction is tried first.
 *
 * Pairs of boxes evaluated on a long-travel corner of 24 bodies, in millions: 15.2 if the box with the larger
 * diagonal is split and each half of a cell is searched from the roots; 11.7 if the thicker box is split; 9.9 if the halves are searched
 * from where the search of the whole cell stopped. Tried without gain:
 * - stop after 4, 16 or 64 failed pairs and leave these to the halves: as many boxes, and 1.1 to 1.5 times the pairs
 *   of triangles;
 * - split the boxes of a failed cell while they are larger than their motion, and start the halves there: as many
 *   boxes, because nearly all are small ones that only small enough cells can separate.
 */
export class CellSearch {
  /** Distance of the last two triangles measured, at the middle of the cell; Infinity if none were. */
  middleMm = Number.POSITIVE_INFINITY;
  /**
   * For a failed cell, the motion toward each other due to x and to y alone, which decides the direction of halving.
   */
  byX = 0;
  byY = 0;
  /** Error of the motion's model, with rounding. */
  restMm = 0;
  /** Number of pairs of boxes and of triangles evaluated in the last cell. */
  evaluations = 0;
  private readonly fixed: Tree;
  private readonly mover: Tree;
  private readonly boxes: MovedBoxes;
  private stack: Int32Array;
  /** For a failed cell, the node pairs that its halves have yet to prove. */
  left: Int32Array = ALL;
  /** The pair of triangles that failed last; it is tried first in the next cell, and its direction after that. */
  private hintFixed = -1;
  private hintMover = -1;
  private readonly hinted = new Direction();
  private hasHinted = false;
  /** Direction of the nearest pair at the middle of the cell, of those measured so far. */
  private readonly nearest = new Direction();
  private nearestMm = Number.POSITIVE_INFINITY;
  /** Direction of the pair last measured, fixed in the fixed body and in the mover. */
  private readonly own = new Direction();
  private readonly back = new Direction();
  private boundMm = 0;
  /** Bound on the rounding of a coordinate. */
  private slackMm = 0;
  private pairsLeft = 0;
  private maxEvaluations = 0;
  private readonly moved = new Float64Array(9);
  /** Halved triangles, nine coordinates for each halving. */
  private readonly halves = new Float64Array(9 * MAX_HALVINGS);

  /** `boxes` may be shared with searches that do not run at the same time. */
  constructor(fixed: Tree, mover: Tree, boxes: MovedBoxes) {
    this.fixed = fixed;
    this.mover = mover;
    this.boxes = boxes;
    this.stack = new Int32Array(2 * (fixed.depth + mover.depth + 2));
  }

  /**
   * Whether the pairs of nodes `open` are shown to keep the distance over the whole cell; all pairs by default.
   * `motion`: of the mover in the fixed body's frame. If the proof fails, `left` holds the node pairs that failed or
   * were not evaluated; all others keep the distance.
   */
  provesSeparation(
    motion: RelativeMotion,
    { boundMm, maxRestMm, maxTrianglePairs, maxEvaluations }: SearchRequest,
    open: Int32Array = ALL,
  ): boolean {
    const { fixed, mover } = this;
    const { forward } = motion;
    this.middleMm = Number.POSITIVE_INFINITY;
    this.left = open;
    this.evaluations = 0;
    this.maxEvaluations = maxEvaluations;
    if (fixed.right.length === 0 || mover.right.length === 0) return true;
    const { terms } = forward;
    this.slackMm =
      ROUNDING *
      (3 * (fixed.reachMm + mover.reachMm) + Math.abs(terms[3]) + Math.abs(terms[7]) + Math.abs(terms[11]));
    this.boundMm = boundMm;
    this.restMm = restOf(forward, mover) + this.slackMm;
    this.pairsLeft = maxTrianglePairs;
    this.nearestMm = Number.POSITIVE_INFINITY;
    this.hasHinted = false;
    this.byX = moveBoundMm(forward, mover, 1, 3);
    this.byY = moveBoundMm(forward, mover, 2, 5);
    if (!(this.restMm <= maxRestMm)) return false;
    this.boxes.begin(mover, forward, this.restMm, boundMm);
    if (this.hintFixed >= 0) {
      if (!this.separatesLeaves(motion, this.hintFixed, this.hintMover)) return false;
      this.hinted.copy(this.own);
      this.hasHinted = true;
    }
    return this.descend(motion, open);
  }

  private descend(motion: RelativeMotion, open: Int32Array): boolean {
    const { fixed, mover, boxes, nearest } = this;
    const capacity = open.length + 2 * (fixed.depth + mover.depth + 2);
    if (this.stack.length < capacity) this.stack = new Int32Array(2 * capacity);
    const { stack } = this;
    stack.set(open);
    let top = open.length / 2;
    let lowestTried = top;
    while (top > 0) {
      top--;
      let nodeF = stack[2 * top];
      let nodeM = stack[2 * top + 1];
      if (top < lowestTried) {
        lowestTried = top;
        const direction = this.nearestMm < Number.POSITIVE_INFINITY ? nearest : undefined;
        if (boxes.findGapSq(fixed.oriented, nodeF, nodeM, direction)) continue;
      }
      for (;;) {
        const leafF = fixed.right[nodeF] === 0;
        const leafM = mover.right[nodeM] === 0;
        const isLeaf = leafF && leafM;
        this.evaluations++;
        if (isLeaf || this.evaluations > this.maxEvaluations) {
          if (isLeaf && this.separatesLeaves(motion, 9 * fixed.first[nodeF], 9 * mover.first[nodeM])) break;
          stack[2 * top] = nodeF;
          stack[2 * top + 1] = nodeM;
          this.left = stack.slice(0, 2 * top + 2);
          return false;
        }
        const splitF =
          leafM ||
          (!leafF && thickness(fixed.oriented, BOX * nodeF) >= thickness(mover.oriented, BOX * nodeM));
        let nearF = splitF ? nodeF + 1 : nodeF;
        let farF = splitF ? fixed.right[nodeF] : nodeF;
        let nearM = splitF ? nodeM : nodeM + 1;
        let farM = splitF ? nodeM : mover.right[nodeM];
        const direction = this.nearestMm < Number.POSITIVE_INFINITY ? nearest : undefined;
        let nearSeparated = boxes.findGapSq(fixed.oriented, nearF, nearM, direction);
        const nearSq = boxes.gapSq[0];
        let farSeparated = boxes.findGapSq(fixed.oriented, farF, farM, direction);
        if (boxes.gapSq[0] < nearSq) {
          [nearF, farF] = [farF, nearF];
          [nearM, farM] = [farM, nearM];
          [nearSeparated, farSeparated] = [farSeparated, nearSeparated];
        }
        if (nearSeparated) break;
        if (!farSeparated) {
          stack[2 * top] = farF;
          stack[2 * top + 1] = farM;
          top++;
        }
        nodeF = nearF;
        nodeM = nearM;
      }
    }
    return true;
  }

  private separatesLeaves(motion: RelativeMotion, i: number, j: number): boolean {
    if (this.separatesTriangles(motion, this.fixed.corners, i, this.mover.corners, j, 0)) return true;
    this.hintFixed = i;
    this.hintMover = j;
    return false;
  }

  /** Whether two triangles keep the distance; `p` in the fixed body's frame, `q` in the mover's own. */
  private separatesTriangles(
    motion: RelativeMotion,
    p: Float64Array,
    i: number,
    q: Float64Array,
    j: number,
    halvings: number,
  ): boolean {
    const { boundMm, restMm, nearest, hinted, own } = this;
    const { forward } = motion;
    const width = boundMm + restMm;
    if (this.nearestMm < Number.POSITIVE_INFINITY && nearest.isSlabAtLeast(p, i, q, j, width)) return true;
    if (this.hasHinted && hinted.isSlabAtLeast(p, i, q, j, width)) return true;
    if (this.pairsLeft-- <= 0 || this.evaluations++ > this.maxEvaluations) return false;
    const d = this.measureAtMiddle(forward, p, i, q, j);
    if (!(d >= boundMm)) return this.fail(q, j);
    if (d < this.nearestMm) {
      this.nearestMm = d;
      nearest.copy(own);
    }
    const slabMm = own.slabMm(p, i, q, j) - restMm;
    if (slabMm >= boundMm) return true;
    const backSlabMm = this.backSlabMm(motion, p, i, q, j);
    if (backSlabMm >= boundMm) return true;
    // Halving the longer triangle reduces the loss due to the bodies' rotation, which is proportional to its length.
    // If that gain is too small, the cell must be halved instead.
    const edgeP = longestEdge(p, i);
    const lengthP = longest.mm;
    const edgeQ = longestEdge(q, j);
    const halvesP = lengthP >= longest.mm;
    const gain = forward.turn * Math.max(lengthP, longest.mm);
    if (halvings === MAX_HALVINGS || gain < boundMm - Math.max(slabMm, backSlabMm)) return this.fail(q, j);
    const { halves } = this;
    const at = 9 * halvings;
    for (const side of SIDES) {
      if (halvesP) halve(halves, at, p, i, edgeP, side);
      else halve(halves, at, q, j, edgeQ, side);
      const isSeparated = halvesP
        ? this.separatesTriangles(motion, halves, at, q, j, halvings + 1)
        : this.separatesTriangles(motion, p, i, halves, at, halvings + 1);
      if (!isSeparated) return false;
    }
    return true;
  }

  /** Distance of two triangles at the middle of the cell, with its direction in `own`; 0 if they cross. */
  private measureAtMiddle(motion: Motion, p: Float64Array, i: number, q: Float64Array, j: number): number {
    const { moved } = this;
    const { terms } = motion;
    for (let k = 0; k < 9; k += 3) {
      const x = q[j + k];
      const y = q[j + k + 1];
      const z = q[j + k + 2];
      moved[k] = terms[0] * x + terms[1] * y + terms[2] * z + terms[3];
      moved[k + 1] = terms[4] * x + terms[5] * y + terms[6] * z + terms[7];
      moved[k + 2] = terms[8] * x + terms[9] * y + terms[10] * z + terms[11];
    }
    triangleDistanceSq(p, i, moved, 0);
    const { points } = trianglePair;
    const x = points[3] - points[0];
    const y = points[4] - points[1];
    const z = points[5] - points[2];
    const d = Math.sqrt(x * x + y * y + z * z);
    this.own.set(d > 0 ? x / d : 1, d > 0 ? y / d : 0, d > 0 ? z / d : 0, motion);
    this.middleMm = trianglePair.crossing ? 0 : d;
    return this.middleMm;
  }

  /** Width of the slab perpendicular to the direction of `own` at the middle, fixed in the mover. */
  private backSlabMm(
    { forward, back }: RelativeMotion,
    p: Float64Array,
    i: number,
    q: Float64Array,
    j: number,
  ): number {
    const { n } = this.own;
    const { terms } = forward;
    const x = n[0] * terms[0] + n[1] * terms[4] + n[2] * terms[8];
    const y = n[0] * terms[1] + n[1] * terms[5] + n[2] * terms[9];
    const z = n[0] * terms[2] + n[1] * terms[6] + n[2] * terms[10];
    this.back.set(-x, -y, -z, back);
    // The model of a rotation is not exactly a rotation: the direction's length may be off by the model's error.
    const restMm = restOf(back, this.fixed) + this.slackMm;
    return this.back.slabMm(q, j, p, i) / (1 + back.restPerMm) - restMm;
  }

  /** Records in which direction the failed pair moves most. */
  private fail(q: Float64Array, j: number): false {
    this.byX = this.own.byX(q, j);
    this.byY = this.own.byY(q, j);
    return false;
  }
}

const SIDES = [0, 1] as const;

/** Bound on the error of a motion's terms for any point of a body. */
function restOf({ restMm, restPerMm, from }: Motion, { oriented }: Tree): number {
  const reach =
    Math.hypot(oriented[0] - from[0], oriented[1] - from[1], oriented[2] - from[2]) + oriented[15];
  return restMm + restPerMm * reach;
}

/** Bound on how far two terms of a motion move any point of a body. */
function moveBoundMm({ terms }: Motion, { oriented }: Tree, one: number, other: number): number {
  let sq = 0;
  for (let r = 0; r < TERM; r += 4) {
    let way = 0;
    for (const term of [one, other]) {
      const t = TERM * term + r;
      const centre =
        terms[t] * oriented[0] + terms[t + 1] * oriented[1] + terms[t + 2] * oriented[2] + terms[t + 3];
      way += Math.abs(centre) + oriented[15] * Math.hypot(terms[t], terms[t + 1], terms[t + 2]);
    }
    sq += way * way;
  }
  return Math.sqrt(sq);
}

const longest = { mm: 0 };

/** Index of the longest edge of a triangle, by the corner that it starts from; its length is in `longest`. */
function longestEdge(t: Float64Array, i: number): number {
  let most = -1;
  let which = 0;
  for (let e = 0; e < 3; e++) {
    const v = i + 3 * e;
    const w = i + 3 * ((e + 1) % 3);
    const sq = (t[w] - t[v]) ** 2 + (t[w + 1] - t[v + 1]) ** 2 + (t[w + 2] - t[v + 2]) ** 2;
    if (sq <= most) continue;
    most = sq;
    which = e;
  }
  longest.mm = Math.sqrt(most);
  return which;
}

/** Computes one half of a triangle that is divided at the middle of an edge. */
function halve(out: Float64Array, at: number, t: Float64Array, i: number, edge: number, side: 0 | 1): void {
  const kept = i + 3 * ((edge + side) % 3);
  const cut = i + 3 * ((edge + 1 - side) % 3);
  const third = i + 3 * ((edge + 2) % 3);
  for (let k = 0; k < 3; k++) {
    out[at + k] = t[kept + k];
    out[at + 3 + k] = (t[kept + k] + t[cut + k]) / 2;
    out[at + 6 + k] = t[third + k];
  }
}
