import { BOX } from '../clearance/orientedBoxes.ts';
import type { Tree } from '../clearance/tree.ts';
import { found, ROUNDING, triangleDistanceSq } from '../clearance/triangleDistance.ts';
import { type Motion, TERM, TERMS } from './proveMotion.ts';

/**
 * Numbers of a node of the mover: its box at the middle of the cell (centre, three axes), how its centre moves with x
 * and with y, and a bound on all that its points move besides.
 */
const NODE = 19;
/** Triangles are halved so many times at most before the cell is given up. */
const MOST_HALVINGS = 8;
/** Pairs of triangles looked at in one cell before it is given up: smaller cells are cheaper then. */
const MOST_PAIRS = Number(process.env.MP ?? 500);


/** Places of a cell's nodes, shared by searches that run one after the other. */
export class NodePlaces {
  numbers = new Float64Array(0);
  stamps = new Uint32Array(0);
  stamp = 0;

  grow(nodes: number): void {
    if (this.stamps.length >= nodes) return;
    this.numbers = new Float64Array(NODE * nodes);
    this.stamps = new Uint32Array(nodes);
  }
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
 * surface are seen better along the direction of the nearest pair than along their own, so that is tried too.
 */
export class CellSearch {
  /** Of the pair of triangles that failed: their distance at the middle of the cell. */
  middleMm = Number.POSITIVE_INFINITY;
  /** How far x and y alone bring them nearer over the cell. */
  byX = 0;
  byY = 0;
  private readonly fixed: Tree;
  private readonly mover: Tree;
  private readonly places: NodePlaces;
  private readonly stack: Int32Array;
  private hintFixed = -1;
  private hintMover = -1;
  private motion: Motion = NO_MOTION;
  private back: Motion = NO_MOTION;
  private leastMm = 0;
  private restMm = 0;
  private backRestMm = 0;
  private pairsLeft = 0;
  private hasCommon = false;
  /** Direction of the nearest pair, and n.T of each term of the motion for it. */
  private readonly common = new Float64Array(3);
  private readonly commonRows = new Float64Array(4 * TERMS);
  private readonly own = new Float64Array(3);
  private readonly ownRows = new Float64Array(4 * TERMS);
  private readonly moved = new Float64Array(9);
  /** Halved triangles, nine coordinates each, two a halving. */
  private readonly halves = new Float64Array(9 * MOST_HALVINGS);

  constructor(fixed: Tree, mover: Tree, places: NodePlaces) {
    this.fixed = fixed;
    this.mover = mover;
    this.places = places;
    this.stack = new Int32Array(2 * (fixed.depth + mover.depth + 2));
    places.grow(mover.right.length);
  }

  /**
   * Whether it is shown. `motion` takes the mover to the fixed body's frame, `back` the other way. A cell over which the
   * motion is not known to within `mostRestMm` is given up at once.
   */
  keeps(motion: Motion, back: Motion, leastMm: number, mostRestMm: number): boolean {
    const { fixed, mover } = this;
    if (fixed.right.length === 0 || mover.right.length === 0) return true;
    const slackMm =
      ROUNDING *
      (3 * (fixed.reachMm + mover.reachMm) +
        Math.abs(motion.terms[3]) +
        Math.abs(motion.terms[7]) +
        Math.abs(motion.terms[11]));
    this.motion = motion;
    this.back = back;
    this.leastMm = leastMm;
    this.restMm = restOf(motion, mover) + slackMm;
    this.backRestMm = restOf(back, fixed) + slackMm;
    this.pairsLeft = MOST_PAIRS;
    this.hasCommon = false;
    this.middleMm = Number.POSITIVE_INFINITY;
    this.byX = wayOf(motion, mover, 1, 3);
    this.byY = wayOf(motion, mover, 2, 5);
    if (!(this.restMm <= mostRestMm)) return false;
    if (this.hintFixed >= 0) {
      if (!this.trianglesKeep(this.hintFixed, this.hintMover)) return false;
      this.common.set(this.own);
      this.commonRows.set(this.ownRows);
      this.hasCommon = true;
    }
    return this.descend();
  }

  private descend(): boolean {
    const { fixed, mover, stack, places } = this;
    places.stamp++;
    this.place(0);
    const enough = this.leastMm * this.leastMm;
    let top = 1;
    stack[0] = 0;
    stack[1] = 0;
    while (top > 0) {
      top--;
      let nodeF = stack[2 * top];
      let nodeM = stack[2 * top + 1];
      for (;;) {
        const leafF = fixed.right[nodeF] === 0;
        const leafM = mover.right[nodeM] === 0;
        if (leafF && leafM) {
          if (!this.trianglesKeep(9 * fixed.first[nodeF], 9 * mover.first[nodeM])) return false;
          break;
        }
        const splitF =
          leafM || (!leafF && fixed.oriented[BOX * nodeF + 15] >= mover.oriented[BOX * nodeM + 15]);
        let nearF = splitF ? nodeF + 1 : nodeF;
        let farF = splitF ? fixed.right[nodeF] : nodeF;
        let nearM = splitF ? nodeM : nodeM + 1;
        let farM = splitF ? nodeM : mover.right[nodeM];
        if (!splitF) {
          this.place(nearM);
          this.place(farM);
        }
        let nearSq = this.gapSq(nearF, nearM, enough);
        let farSq = this.gapSq(farF, farM, enough);
        if (farSq < nearSq) {
          [nearF, farF] = [farF, nearF];
          [nearM, farM] = [farM, nearM];
          [nearSq, farSq] = [farSq, nearSq];
        }
        if (nearSq >= enough) break;
        if (farSq < enough) {
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

  /** Places a node of the mover at the middle of the cell, with its motion. */
  private place(node: number): void {
    const { places, mover, motion } = this;
    if (places.stamps[node] === places.stamp) return;
    places.stamps[node] = places.stamp;
    const { numbers } = places;
    const { terms } = motion;
    const box = mover.oriented;
    const i = BOX * node;
    const out = NODE * node;
    for (let k = 0; k < 12; k += 3) {
      const x = box[i + k];
      const y = box[i + k + 1];
      const z = box[i + k + 2];
      numbers[out + k] = terms[0] * x + terms[1] * y + terms[2] * z;
      numbers[out + k + 1] = terms[4] * x + terms[5] * y + terms[6] * z;
      numbers[out + k + 2] = terms[8] * x + terms[9] * y + terms[10] * z;
    }
    numbers[out] += terms[3];
    numbers[out + 1] += terms[7];
    numbers[out + 2] += terms[11];
    const x = box[i];
    const y = box[i + 1];
    const z = box[i + 2];
    let bend = 0;
    for (let term = 1; term < TERMS; term++) {
      const t = TERM * term;
      const mx = terms[t] * x + terms[t + 1] * y + terms[t + 2] * z + terms[t + 3];
      const my = terms[t + 4] * x + terms[t + 5] * y + terms[t + 6] * z + terms[t + 7];
      const mz = terms[t + 8] * x + terms[t + 9] * y + terms[t + 10] * z + terms[t + 11];
      if (term > 2) {
        bend += Math.sqrt(mx * mx + my * my + mz * mz);
        continue;
      }
      const at = out + 9 + 3 * term;
      numbers[at] = mx;
      numbers[at + 1] = my;
      numbers[at + 2] = mz;
    }
    numbers[out + 18] = bend + (motion.turn + motion.bend) * box[i + 15] + this.restMm;
  }

  /** Lower bound of the squared distance of two boxes over the cell, along the axes of either at the middle. */
  private gapSq(nodeF: number, nodeM: number, enough: number): number {
    const a = this.fixed.oriented;
    const b = this.mover.oriented;
    const m = this.places.numbers;
    const i = BOX * nodeF;
    const j = NODE * nodeM;
    const half = BOX * nodeM + 12;
    const dx = m[j] - a[i];
    const dy = m[j + 1] - a[i + 1];
    const dz = m[j + 2] - a[i + 2];
    const rest = m[j + 18];
    let first = 0;
    for (let k = 3; k < 12; k += 3) {
      const x = a[i + k];
      const y = a[i + k + 1];
      const z = a[i + k + 2];
      const gap =
        Math.abs(dx * x + dy * y + dz * z) -
        a[i + 11 + k / 3] -
        b[half] * Math.abs(x * m[j + 3] + y * m[j + 4] + z * m[j + 5]) -
        b[half + 1] * Math.abs(x * m[j + 6] + y * m[j + 7] + z * m[j + 8]) -
        b[half + 2] * Math.abs(x * m[j + 9] + y * m[j + 10] + z * m[j + 11]) -
        Math.abs(x * m[j + 12] + y * m[j + 13] + z * m[j + 14]) -
        Math.abs(x * m[j + 15] + y * m[j + 16] + z * m[j + 17]) -
        rest;
      if (gap > 0) first += gap * gap;
    }
    if (first >= enough) return first;
    let second = 0;
    for (let k = 3; k < 12; k += 3) {
      const x = m[j + k];
      const y = m[j + k + 1];
      const z = m[j + k + 2];
      const gap =
        Math.abs(dx * x + dy * y + dz * z) -
        b[half - 1 + k / 3] -
        a[i + 12] * Math.abs(x * a[i + 3] + y * a[i + 4] + z * a[i + 5]) -
        a[i + 13] * Math.abs(x * a[i + 6] + y * a[i + 7] + z * a[i + 8]) -
        a[i + 14] * Math.abs(x * a[i + 9] + y * a[i + 10] + z * a[i + 11]) -
        Math.abs(x * m[j + 12] + y * m[j + 13] + z * m[j + 14]) -
        Math.abs(x * m[j + 15] + y * m[j + 16] + z * m[j + 17]) -
        rest;
      if (gap > 0) second += gap * gap;
    }
    return Math.max(first, second);
  }

  private trianglesKeep(i: number, j: number): boolean {
    if (this.keep(this.fixed.corners, i, this.mover.corners, j, 0)) return true;
    this.hintFixed = i;
    this.hintMover = j;
    return false;
  }

  /** Whether two triangles keep the distance; `p` in the fixed body's frame, `q` in the mover's own. */
  private keep(p: Float64Array, i: number, q: Float64Array, j: number, halvings: number): boolean {
    const { motion, leastMm, own, ownRows, moved } = this;
    const { terms } = motion;
    if (this.hasCommon && this.slabMm(this.common, this.commonRows, p, i, q, j) >= leastMm) return true;
    if (this.pairsLeft-- <= 0) {
      this.byX = wayOf(motion, this.mover, 1, 3);
      this.byY = wayOf(motion, this.mover, 2, 5);
      return false;
    }
    for (let k = 0; k < 9; k += 3) {
      const x = q[j + k];
      const y = q[j + k + 1];
      const z = q[j + k + 2];
      moved[k] = terms[0] * x + terms[1] * y + terms[2] * z + terms[3];
      moved[k + 1] = terms[4] * x + terms[5] * y + terms[6] * z + terms[7];
      moved[k + 2] = terms[8] * x + terms[9] * y + terms[10] * z + terms[11];
    }
    const d = Math.sqrt(triangleDistanceSq(p, i, moved, 0));
    this.middleMm = d;
    const { points } = found;
    const x = points[3] - points[0];
    const y = points[4] - points[1];
    const z = points[5] - points[2];
    const length = Math.sqrt(x * x + y * y + z * z);
    own[0] = x / length;
    own[1] = y / length;
    own[2] = z / length;
    if (found.crossing || d < leastMm) return this.fail(q, j);
    rowsFor(ownRows, terms, own);
    const forwardMm = this.slabMm(own, ownRows, p, i, q, j);
    if (forwardMm >= leastMm) return true;
    const backMm = this.backSlabMm(p, i, q, j);
    if (backMm >= leastMm) return true;
    // Halving the longer triangle takes off what the bodies' turning makes of its length; if that is too little, the
    // cell must be split.
    const missing = leastMm - Math.max(forwardMm, backMm);
    const edgeP = longestEdge(p, i);
    const lengthP = edge.length;
    const edgeQ = longestEdge(q, j);
    const halvesP = lengthP >= edge.length;
    if (halvings === MOST_HALVINGS || motion.turn * Math.max(lengthP, edge.length) < missing)
      return this.fail(q, j);
    const { halves } = this;
    const at = 9 * halvings;
    const whole = halvesP ? p : q;
    const first = halvesP ? i : j;
    const cut = 3 * (halvesP ? edgeP : edgeQ);
    for (let side = 0; side < 2; side++) {
      const end = first + (side === 0 ? cut : (cut + 3) % 9);
      const other = first + (side === 0 ? (cut + 3) % 9 : cut);
      const third = first + ((cut + 6) % 9);
      for (let k = 0; k < 3; k++) {
        halves[at + k] = whole[end + k];
        halves[at + 3 + k] = (whole[end + k] + whole[other + k]) / 2;
        halves[at + 6 + k] = whole[third + k];
      }
      const holds = halvesP
        ? this.keep(halves, at, q, j, halvings + 1)
        : this.keep(p, i, halves, at, halvings + 1);
      if (!holds) return false;
    }
    return true;
  }

  /** Notes which way the pair that failed moves most. */
  private fail(q: Float64Array, j: number): false {
    rowsFor(this.ownRows, this.motion.terms, this.own);
    this.byX = 0;
    this.byY = 0;
    for (let k = j; k < j + 9; k += 3) {
      const w = this.ownRows;
      const twist = Math.abs(rowAt(w, 16, q, k)) / 2;
      this.byX = Math.max(this.byX, twist - leastOfQuadratic(rowAt(w, 4, q, k), rowAt(w, 12, q, k)));
      this.byY = Math.max(this.byY, twist - leastOfQuadratic(rowAt(w, 8, q, k), rowAt(w, 20, q, k)));
    }
    return false;
  }

  /** Width of the slab square to `n`, fixed in the fixed body, that stays between two triangles. */
  private slabMm(
    n: Float64Array,
    rows: Float64Array,
    p: Float64Array,
    i: number,
    q: Float64Array,
    j: number,
  ): number {
    let least = Number.POSITIVE_INFINITY;
    for (let k = j; k < j + 9; k += 3) {
      const low =
        rowAt(rows, 0, q, k) +
        leastOfQuadratic(rowAt(rows, 4, q, k), rowAt(rows, 12, q, k)) +
        leastOfQuadratic(rowAt(rows, 8, q, k), rowAt(rows, 20, q, k)) -
        Math.abs(rowAt(rows, 16, q, k));
      if (low < least) least = low;
    }
    const most = Math.max(along(n, p, i), along(n, p, i + 3), along(n, p, i + 6));
    return least - most - this.restMm;
  }

  /** The same for the direction of `own` at the middle of the cell, fixed in the mover. */
  private backSlabMm(p: Float64Array, i: number, q: Float64Array, j: number): number {
    const { own } = this;
    const { terms } = this.motion;
    for (let k = 0; k < 3; k++) {
      backward[k] = -(own[0] * terms[k] + own[1] * terms[4 + k] + own[2] * terms[8 + k]);
    }
    rowsFor(backRows, this.back.terms, backward);
    let least = Number.POSITIVE_INFINITY;
    for (let k = i; k < i + 9; k += 3) {
      const low =
        rowAt(backRows, 0, p, k) +
        leastOfQuadratic(rowAt(backRows, 4, p, k), rowAt(backRows, 12, p, k)) +
        leastOfQuadratic(rowAt(backRows, 8, p, k), rowAt(backRows, 20, p, k)) -
        Math.abs(rowAt(backRows, 16, p, k));
      if (low < least) least = low;
    }
    const most = Math.max(along(backward, q, j), along(backward, q, j + 3), along(backward, q, j + 6));
    // The middle term of a model of a rotation is a rotation but for the rest, and so is the length of the direction.
    return (least - most) / (1 + this.back.restPerMm) - this.backRestMm;
  }
}

const NO_MOTION: Motion = {
  terms: new Float64Array(TERMS * TERM),
  from: [0, 0, 0],
  restMm: 0,
  restPerMm: 0,
  turn: 0,
  bend: 0,
};
const backward = new Float64Array(3);
const backRows = new Float64Array(4 * TERMS);

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
      way +=
        Math.abs(
          terms[t] * oriented[0] + terms[t + 1] * oriented[1] + terms[t + 2] * oriented[2] + terms[t + 3],
        ) +
        oriented[15] * Math.hypot(terms[t], terms[t + 1], terms[t + 2]);
    }
    sq += way * way;
  }
  return Math.sqrt(sq);
}

/** n.T of each term. */
function rowsFor(out: Float64Array, terms: Float64Array, n: Float64Array): void {
  for (let term = 0; term < TERMS; term++) {
    const t = TERM * term;
    for (let k = 0; k < 4; k++)
      out[4 * term + k] = n[0] * terms[t + k] + n[1] * terms[t + 4 + k] + n[2] * terms[t + 8 + k];
  }
}

const rowAt = (rows: Float64Array, r: number, q: Float64Array, k: number): number =>
  rows[r] * q[k] + rows[r + 1] * q[k + 1] + rows[r + 2] * q[k + 2] + rows[r + 3];

const along = (n: Float64Array, p: Float64Array, i: number): number =>
  n[0] * p[i] + n[1] * p[i + 1] + n[2] * p[i + 2];

/** Least value of `g x + h x^2` for -1 <= x <= 1. */
function leastOfQuadratic(g: number, h: number): number {
  const slope = Math.abs(g);
  return slope < 2 * h ? (-slope * slope) / (4 * h) : h - slope;
}

const edge = { length: 0 };

/** Which edge of a triangle is the longest, by the corner it starts from; its length in `edge`. */
function longestEdge(t: Float64Array, i: number): number {
  let longest = -1;
  let which = 0;
  for (let e = 0; e < 3; e++) {
    const v = i + 3 * e;
    const w = i + 3 * ((e + 1) % 3);
    const sq = (t[w] - t[v]) ** 2 + (t[w + 1] - t[v + 1]) ** 2 + (t[w + 2] - t[v + 2]) ** 2;
    if (sq <= longest) continue;
    longest = sq;
    which = e;
  }
  edge.length = Math.sqrt(longest);
  return which;
}
