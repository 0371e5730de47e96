import { thickness } from '../clearance/boxGap.ts';
import { BOX } from '../clearance/orientedBoxes.ts';
import type { Tree } from '../clearance/tree.ts';
import { found, ROUNDING, triangleDistanceSq } from '../clearance/triangleDistance.ts';
import type { MovedBoxes } from './proveBoxes.ts';
import { Direction } from './proveDirection.ts';
import { type Motion, type RelativeMotion, TERM } from './proveMotion.ts';

/** A triangle is halved so many times at most before the cell is given up. */
const MOST_HALVINGS = 8;

/** The one pair of nodes that all others are in. */
const ALL = Int32Array.of(0, 0);

/** What is to be shown of a cell, and how much may be spent on it. */
export interface Asked {
  leastMm: number;
  /** A cell over which the motion is not known to within this is given up at once. */
  mostRestMm: number;
  /** Pairs of triangles that are measured before the cell is given up. */
  mostPairs: number;
  /** Pairs of boxes and of triangles that are looked at before the cell is given up. */
  mostLooks: number;
}

/**
 * Shows that two surfaces keep a distance all over a cell. Both trees are descended together. Over the cell the points
 * of a mover's box stay within the box at the middle, widened along any direction n by what n sees of the motion of its
 * centre, and by what the box's points move besides; boxes so widened that keep the distance need no further look.
 *
 * Two triangles keep it where a slab of that width stays between them: for a unit vector n, the least of n.q over the
 * cell for each corner q of the one less the greatest n.p of the other; n is fixed to either body. As the direction of
 * the nearest points at the middle is tried, what is lost is of second order in the size of the cell: along it the
 * bodies move by as much as the distance changes, however far they slide past each other. Neighbours on a smooth
 * surface are seen better along the direction of the nearest pair than along their own, so that is tried first.
 *
 * Pairs of boxes bounded on the desert demo, in millions: 15.2 where the box of the larger diagonal is split and each
 * half of a cell is searched from the roots; 11.7 where the thicker box is split; 9.9 where the halves are searched from
 * where the search of the whole broke off. Tried: to break off after 4, 16 and 64 pairs that fail, and leave these to
 * the halves: no fewer boxes, and 1.1 to 1.5 times the pairs of triangles; and to halve boxes of a cell that fails as long
 * as they are larger than their motion over it, and begin the halves there: no fewer either, as nearly all of the boxes
 * are small ones that only cells small enough can keep apart.
 */
export class CellSearch {
  /** Distance of the last two triangles measured, at the middle of the cell; Infinity where none were. */
  middleMm = Number.POSITIVE_INFINITY;
  /** Where it is not shown: how far x and y alone move what stands against it, a measure of which to halve. */
  byX = 0;
  byY = 0;
  /** What the model of the motion leaves out, and rounding. */
  restMm = 0;
  /** Pairs of boxes and of triangles that the last cell took. */
  looks = 0;
  private readonly fixed: Tree;
  private readonly mover: Tree;
  private readonly boxes: MovedBoxes;
  private stack: Int32Array;
  /** Of a cell of which it is not shown, the pairs of nodes of which it is still to be shown in its halves. */
  left: Int32Array = ALL;
  /** The pair of triangles that failed last: tried first in the next cell, and a direction worth trying. */
  private hintFixed = -1;
  private hintMover = -1;
  private readonly hinted = new Direction();
  private hasHinted = false;
  /** Of the nearest pair at the middle of the cell, of those measured so far. */
  private readonly nearest = new Direction();
  private nearestMm = Number.POSITIVE_INFINITY;
  /** Of the pair last measured, fixed in the fixed body and in the mover. */
  private readonly own = new Direction();
  private readonly back = new Direction();
  private leastMm = 0;
  /** What rounding can do to a coordinate. */
  private slackMm = 0;
  private pairsLeft = 0;
  private mostLooks = 0;
  private readonly moved = new Float64Array(9);
  /** Halved triangles, nine coordinates for each halving. */
  private readonly halves = new Float64Array(9 * MOST_HALVINGS);

  /** `boxes` may be shared with searches that do not run at the same time. */
  constructor(fixed: Tree, mover: Tree, boxes: MovedBoxes) {
    this.fixed = fixed;
    this.mover = mover;
    this.boxes = boxes;
    this.stack = new Int32Array(2 * (fixed.depth + mover.depth + 2));
  }

  /**
   * Whether it is shown of these pairs of nodes, all unless told; `motion` is that of the mover in the fixed body's
   * frame. Where it is not, `left` holds those that failed or were not looked at; the others keep the distance over the
   * whole cell.
   */
  keeps(
    motion: RelativeMotion,
    { leastMm, mostRestMm, mostPairs, mostLooks }: Asked,
    open: Int32Array = ALL,
  ): boolean {
    const { fixed, mover } = this;
    const { forward } = motion;
    this.middleMm = Number.POSITIVE_INFINITY;
    this.left = open;
    this.looks = 0;
    this.mostLooks = mostLooks;
    if (fixed.right.length === 0 || mover.right.length === 0) return true;
    const { terms } = forward;
    this.slackMm =
      ROUNDING *
      (3 * (fixed.reachMm + mover.reachMm) + Math.abs(terms[3]) + Math.abs(terms[7]) + Math.abs(terms[11]));
    this.leastMm = leastMm;
    this.restMm = restOf(forward, mover) + this.slackMm;
    this.pairsLeft = mostPairs;
    this.nearestMm = Number.POSITIVE_INFINITY;
    this.hasHinted = false;
    this.byX = wayOf(forward, mover, 1, 3);
    this.byY = wayOf(forward, mover, 2, 5);
    if (!(this.restMm <= mostRestMm)) return false;
    this.boxes.begin(mover, forward, this.restMm, leastMm);
    if (this.hintFixed >= 0) {
      if (!this.trianglesKeep(motion, this.hintFixed, this.hintMover)) return false;
      this.hinted.copy(this.own);
      this.hasHinted = true;
    }
    return this.descend(motion, open);
  }

  private descend(motion: RelativeMotion, open: Int32Array): boolean {
    const { fixed, mover, boxes, nearest } = this;
    const most = open.length + 2 * (fixed.depth + mover.depth + 2);
    if (this.stack.length < most) this.stack = new Int32Array(2 * most);
    const { stack } = this;
    stack.set(open);
    let top = open.length / 2;
    let unseen = top;
    while (top > 0) {
      top--;
      let nodeF = stack[2 * top];
      let nodeM = stack[2 * top + 1];
      if (top < unseen) {
        unseen = top;
        const direction = this.nearestMm < Number.POSITIVE_INFINITY ? nearest : undefined;
        if (boxes.findGapSq(fixed.oriented, nodeF, nodeM, direction)) continue;
      }
      for (;;) {
        const leafF = fixed.right[nodeF] === 0;
        const leafM = mover.right[nodeM] === 0;
        const isLeaf = leafF && leafM;
        this.looks++;
        if (isLeaf || this.looks > this.mostLooks) {
          if (isLeaf && this.trianglesKeep(motion, 9 * fixed.first[nodeF], 9 * mover.first[nodeM])) break;
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
        let nearKeeps = boxes.findGapSq(fixed.oriented, nearF, nearM, direction);
        const nearSq = boxes.gapSq[0];
        let farKeeps = boxes.findGapSq(fixed.oriented, farF, farM, direction);
        if (boxes.gapSq[0] < nearSq) {
          [nearF, farF] = [farF, nearF];
          [nearM, farM] = [farM, nearM];
          [nearKeeps, farKeeps] = [farKeeps, nearKeeps];
        }
        if (nearKeeps) break;
        if (!farKeeps) {
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

  private trianglesKeep(motion: RelativeMotion, i: number, j: number): boolean {
    if (this.keep(motion, this.fixed.corners, i, this.mover.corners, j, 0)) return true;
    this.hintFixed = i;
    this.hintMover = j;
    return false;
  }

  /** Whether two triangles keep the distance; `p` in the fixed body's frame, `q` in the mover's own. */
  private keep(
    motion: RelativeMotion,
    p: Float64Array,
    i: number,
    q: Float64Array,
    j: number,
    halvings: number,
  ): boolean {
    const { leastMm, restMm, nearest, hinted, own } = this;
    const { forward } = motion;
    const width = leastMm + restMm;
    if (this.nearestMm < Number.POSITIVE_INFINITY && nearest.keeps(p, i, q, j, width)) return true;
    if (this.hasHinted && hinted.keeps(p, i, q, j, width)) return true;
    if (this.pairsLeft-- <= 0 || this.looks++ > this.mostLooks) return false;
    const d = this.measureAtMiddle(forward, p, i, q, j);
    if (!(d >= leastMm)) return this.fail(q, j);
    if (d < this.nearestMm) {
      this.nearestMm = d;
      nearest.copy(own);
    }
    const slabMm = own.slabMm(p, i, q, j) - restMm;
    if (slabMm >= leastMm) return true;
    const backSlabMm = this.backSlabMm(motion, p, i, q, j);
    if (backSlabMm >= leastMm) return true;
    // Halving the longer triangle takes off what the bodies' turning makes of its length; if that is too little, the
    // cell must be halved instead.
    const edgeP = longestEdge(p, i);
    const lengthP = longest.mm;
    const edgeQ = longestEdge(q, j);
    const halvesP = lengthP >= longest.mm;
    const gain = forward.turn * Math.max(lengthP, longest.mm);
    if (halvings === MOST_HALVINGS || gain < leastMm - Math.max(slabMm, backSlabMm)) return this.fail(q, j);
    const { halves } = this;
    const at = 9 * halvings;
    for (const side of SIDES) {
      if (halvesP) halve(halves, at, p, i, edgeP, side);
      else halve(halves, at, q, j, edgeQ, side);
      const keeps = halvesP
        ? this.keep(motion, halves, at, q, j, halvings + 1)
        : this.keep(motion, p, i, halves, at, halvings + 1);
      if (!keeps) return false;
    }
    return true;
  }

  /** Distance of two triangles at the middle of the cell, its direction in `own`; 0 where they cross. */
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
    const { points } = found;
    const x = points[3] - points[0];
    const y = points[4] - points[1];
    const z = points[5] - points[2];
    const d = Math.sqrt(x * x + y * y + z * z);
    this.own.set(d > 0 ? x / d : 1, d > 0 ? y / d : 0, d > 0 ? z / d : 0, motion);
    this.middleMm = found.crossing ? 0 : d;
    return this.middleMm;
  }

  /** The slab square to the direction of `own` at the middle, fixed in the mover. */
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
    // The model of a rotation is a rotation but for what it leaves out, and by as much the direction may be too long.
    const restMm = restOf(back, this.fixed) + this.slackMm;
    return this.back.slabMm(q, j, p, i) / (1 + back.restPerMm) - restMm;
  }

  /** Notes which way the pair that failed moves most. */
  private fail(q: Float64Array, j: number): false {
    this.byX = this.own.byX(q, j);
    this.byY = this.own.byY(q, j);
    return false;
  }
}

const SIDES = [0, 1] as const;

/** What the terms of a motion leave out, for any point of a body. */
function restOf({ restMm, restPerMm, from }: Motion, { oriented }: Tree): number {
  const reach =
    Math.hypot(oriented[0] - from[0], oriented[1] - from[1], oriented[2] - from[2]) + oriented[15];
  return restMm + restPerMm * reach;
}

/** How far two terms of a motion move any point of a body at most. */
function wayOf({ terms }: Motion, { oriented }: Tree, one: number, other: number): number {
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

/** Which edge of a triangle is the longest, by the corner it starts from; its length in `longest`. */
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

/** One half of a triangle that is cut through the middle of an edge. */
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
