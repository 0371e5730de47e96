/**
 * Bounds that were tried, each with the processor time of a query on the tyre / barrel / rotor pairs of
 * tests/bench/query.ts (12,000 triangles a side, no limit, nearest pair of the last pose tried first, one machine):
 * - boxes turned to fit, one triangle a leaf, bounded in the axes of both and across both longest sides: 0.31 / 0.14 /
 *   0.11 ms, crossing rods 0.012 ms. Kept.
 * - without the bound across the longest sides: 0.29 / 0.18 / 0.12 ms, but crossing rods 0.064 ms, and ten times as
 *   long as now on arms against dampers.
 * - bounded in the axes of the one box only: 0.27 / 1.33 / 0.15 ms; long thin boxes look near from one side.
 * - after a bound of the boxes' balls: 0.30 / 0.17 / 0.13 ms; nothing gained for one test more.
 * - boxes along the axes of each mesh, bounded in both, two triangles to some leaves: tyre 6.2, rotor 0.63 ms; a
 *   slanting patch of surface fills its upright box badly.
 * - trees split at the middle (CENTER) instead of by surface area: made 20 ms sooner, 0.29 / 0.19 / 0.15 ms, and 1.6
 *   times slower where no earlier pair is known.
 *
 * On the desert demo, time of all pairs over a ninth of the sweep, of the search as it stands then:
 * - the thicker box split first (sum of the two lesser sides), and triangles kept apart by the slab between the nearest
 *   points so far left out: 0.61 of the time when the larger diagonal was split and every triangle measured. Kept. The
 *   rule alone halves the boxes that are bounded, where an arm stands inside a wheel.
 * - splitting by the box's area, its middle side, its least side or its volume: 1.15, 1.03, 1.08, 1.06 times the boxes.
 * - three more directions across both boxes: 0.93 of the boxes, 0.975 of the time; all nine 0.89 of the boxes. The exact
 *   distance of the boxes could bring no more than 0.76.
 * - trees split along the principal axes of each node, by surface area: 0.95 of the boxes, and twice the time to build.
 * - what was pruned at the last pose kept, with its bound less the motion since: 1.25 times the time; steps are too long
 *   for the bounds to hold (seven in ten must be looked at again; half, with the motion of each box alone).
 */
import type { Rigid } from '../math/rigid.ts';
import { BOX } from './orientedBoxes.ts';
import type { Tree } from './tree.ts';
import { found, ROUNDING, triangleDistanceSq } from './triangleDistance.ts';

/** Numbers of a box of B in the frame of A: centre, three axes. */
const MOVED = 12;
/** Boxes of B moved at this pose, and at which search each was moved: shared by all searches, none keeps them. */
let movedBoxes = new Float64Array(0);
let movedAt = new Uint32Array(0);
let searches = 0;

/**
 * The nearest pair of triangles of two surfaces: both trees descended together, nearer child first, larger node
 * split, pruned at the best so far. Lower bounds keep clear of rounding and only what is strictly further is pruned,
 * and of equal pairs the first in the order of the leaves is kept, so that the answer is the same bits whatever the
 * search started from.
 */
export class SurfaceSearch {
  /** Squared distance of the nearest pair; Infinity when none is within the limit. */
  distanceSq = Number.POSITIVE_INFINITY;
  /** Nearest points in the frame of A. */
  readonly pointA = new Float64Array(3);
  readonly pointB = new Float64Array(3);
  /** Triangles of the nearest pair, as offsets into `corners`; -1 for none. */
  triangleA = -1;
  triangleB = -1;
  /** Two triangles cross: the search ended there. */
  crossing = false;
  private readonly a: Tree;
  private readonly b: Tree;
  /** Node of A, node of B. */
  private readonly stack: Int32Array;
  private readonly stackSq: Float64Array;
  private readonly moved = new Float64Array(9);
  /** What rounding can do to a coordinate at this pose, mm. */
  private slack = 0;

  constructor(a: Tree, b: Tree) {
    this.a = a;
    this.b = b;
    const most = a.depth + b.depth + 2;
    this.stack = new Int32Array(2 * most);
    this.stackSq = new Float64Array(most);
    if (movedAt.length < b.right.length) {
      movedBoxes = new Float64Array(MOVED * b.right.length);
      movedAt = new Uint32Array(b.right.length);
    }
  }

  /**
   * Searches at one pose. The pair that the last search ended with is tried first, unless `triangleA` is -1.
   * Allocates nothing.
   */
  run(aFromB: Rigid, limitMm: number): void {
    this.crossing = false;
    this.distanceSq = limitMm * limitMm;
    const hintA = this.triangleA;
    const hintB = this.triangleB;
    this.triangleA = -1;
    this.triangleB = -1;
    this.slack =
      ROUNDING *
      (this.a.reachMm + this.b.reachMm + Math.abs(aFromB[3]) + Math.abs(aFromB[7]) + Math.abs(aFromB[11]));
    if (this.a.right.length > 0 && this.b.right.length > 0) {
      if (hintA >= 0) this.tryPair(aFromB, hintA, hintB);
      if (!this.crossing) this.descend(aFromB);
    }
    if (this.triangleA < 0) this.distanceSq = Number.POSITIVE_INFINITY;
  }

  private descend(aFromB: Rigid): void {
    const { a, b, stack, stackSq, slack } = this;
    const rightA = a.right;
    const rightB = b.right;
    const boxesA = a.oriented;
    const boxesB = b.oriented;
    searches++;
    moveBox(aFromB, boxesB, 0);
    let top = 1;
    stack[0] = 0;
    stack[1] = 0;
    stackSq[0] = 0;
    while (top > 0) {
      top--;
      if (stackSq[top] > this.distanceSq) continue;
      let nodeA = stack[2 * top];
      let nodeB = stack[2 * top + 1];
      for (;;) {
        const leafA = rightA[nodeA] === 0;
        const leafB = rightB[nodeB] === 0;
        if (leafA && leafB) {
          this.tryPair(aFromB, 9 * a.first[nodeA], 9 * b.first[nodeB]);
          if (this.crossing) return;
          break;
        }
        const best = this.distanceSq;
        const splitA = leafB || (!leafA && thickness(boxesA, BOX * nodeA) >= thickness(boxesB, BOX * nodeB));
        let nearA = nodeA;
        let nearB = nodeB;
        let farA = nodeA;
        let farB = nodeB;
        if (splitA) {
          nearA = nodeA + 1;
          farA = rightA[nodeA];
        } else {
          nearB = nodeB + 1;
          farB = rightB[nodeB];
          if (movedAt[nearB] !== searches) moveBox(aFromB, boxesB, nearB);
          if (movedAt[farB] !== searches) moveBox(aFromB, boxesB, farB);
        }
        let nearSq = gapSq(boxesA, BOX * nearA, boxesB, nearB, slack, best);
        let farSq = gapSq(boxesA, BOX * farA, boxesB, farB, slack, best);
        if (
          farSq < nearSq ||
          (farSq === nearSq && centresSq(boxesA, BOX * farA, farB) < centresSq(boxesA, BOX * nearA, nearB))
        ) {
          const sq = nearSq;
          nearSq = farSq;
          farSq = sq;
          const node = splitA ? nearA : nearB;
          if (splitA) {
            nearA = farA;
            farA = node;
          } else {
            nearB = farB;
            farB = node;
          }
        }
        if (farSq <= best) {
          stack[2 * top] = farA;
          stack[2 * top + 1] = farB;
          stackSq[top] = farSq;
          top++;
        }
        if (nearSq > best) break;
        nodeA = nearA;
        nodeB = nearB;
      }
    }
  }

  /** Measures a triangle of A against one of B. */
  private tryPair(t: Rigid, i: number, j: number): void {
    const { moved } = this;
    const { corners } = this.b;
    for (let k = 0; k < 9; k += 3) {
      const x = corners[j + k];
      const y = corners[j + k + 1];
      const z = corners[j + k + 2];
      moved[k] = t[0] * x + t[1] * y + t[2] * z + t[3];
      moved[k + 1] = t[4] * x + t[5] * y + t[6] * z + t[7];
      moved[k + 2] = t[8] * x + t[9] * y + t[10] * z + t[11];
    }
    if (this.triangleA >= 0 && this.isBehindSlab(i)) return;
    const d = triangleDistanceSq(this.a.corners, i, moved, 0);
    if (d > this.distanceSq) return;
    if (d === this.distanceSq && this.triangleA >= 0 && this.isLater(i, j)) return;
    this.distanceSq = d;
    this.triangleA = i;
    this.triangleB = j;
    this.crossing = found.crossing;
    const { points } = found;
    for (let k = 0; k < 3; k++) {
      this.pointA[k] = points[k];
      this.pointB[k] = points[k + 3];
    }
  }

  /**
   * Whether the slab between the nearest points so far, which is as wide as they are apart, keeps the triangle of A at
   * `i` and the moved one further apart than that. Near the nearest place most neighbours go this way.
   */
  private isBehindSlab(i: number): boolean {
    const { pointA, pointB, moved } = this;
    const { corners } = this.a;
    const x = pointB[0] - pointA[0];
    const y = pointB[1] - pointA[1];
    const z = pointB[2] - pointA[2];
    const a0 = x * corners[i] + y * corners[i + 1] + z * corners[i + 2];
    const a1 = x * corners[i + 3] + y * corners[i + 4] + z * corners[i + 5];
    const a2 = x * corners[i + 6] + y * corners[i + 7] + z * corners[i + 8];
    const b0 = x * moved[0] + y * moved[1] + z * moved[2];
    const b1 = x * moved[3] + y * moved[4] + z * moved[5];
    const b2 = x * moved[6] + y * moved[7] + z * moved[8];
    const apart = Math.min(b0, b1, b2) - Math.max(a0, a1, a2);
    return apart - this.slack * (Math.abs(x) + Math.abs(y) + Math.abs(z)) > this.distanceSq;
  }

  private isLater(i: number, j: number): boolean {
    return i > this.triangleA || (i === this.triangleA && j >= this.triangleB);
  }
}

/** Brings the box of a node of B into the frame of A. */
function moveBox(t: Rigid, boxes: Float64Array, node: number): void {
  const i = BOX * node;
  const out = MOVED * node;
  for (let k = 0; k < MOVED; k += 3) {
    const x = boxes[i + k];
    const y = boxes[i + k + 1];
    const z = boxes[i + k + 2];
    movedBoxes[out + k] = t[0] * x + t[1] * y + t[2] * z;
    movedBoxes[out + k + 1] = t[4] * x + t[5] * y + t[6] * z;
    movedBoxes[out + k + 2] = t[8] * x + t[9] * y + t[10] * z;
  }
  movedBoxes[out] += t[3];
  movedBoxes[out + 1] += t[7];
  movedBoxes[out + 2] += t[11];
  movedAt[node] = searches;
}

function centresSq(boxesA: Float64Array, i: number, nodeB: number): number {
  const j = MOVED * nodeB;
  const dx = movedBoxes[j] - boxesA[i];
  const dy = movedBoxes[j + 1] - boxesA[i + 1];
  const dz = movedBoxes[j + 2] - boxesA[i + 2];
  return dx * dx + dy * dy + dz * dz;
}

/** Long sides less than half a degree from parallel have no direction across both worth the name. */
const LEAST_SINE_SQ = 1e-4;

/** How far a box is from being a line: what makes its bound loose is split first, and a long box bounds no worse. */
const thickness = (boxes: Float64Array, i: number): number => boxes[i + 13] + boxes[i + 14];

/**
 * Lower bound of the squared distance of two boxes. Along the axes of the one the other reaches no further than an
 * upright box does, and two upright boxes have an exact distance; the same the other way round; and the gap along what
 * is square to both longest sides, which is what parts two crossing rods. Each is tried only where those before it
 * come to no more than `enough`.
 */
function gapSq(
  a: Float64Array,
  i: number,
  b: Float64Array,
  nodeB: number,
  slack: number,
  enough: number,
): number {
  const m = movedBoxes;
  const j = MOVED * nodeB;
  const half = BOX * nodeB + 12;
  const dx = m[j] - a[i];
  const dy = m[j + 1] - a[i + 1];
  const dz = m[j + 2] - a[i + 2];
  const ux = a[i + 3];
  const uy = a[i + 4];
  const uz = a[i + 5];
  const vx = a[i + 6];
  const vy = a[i + 7];
  const vz = a[i + 8];
  const wx = a[i + 9];
  const wy = a[i + 10];
  const wz = a[i + 11];
  const px = m[j + 3];
  const py = m[j + 4];
  const pz = m[j + 5];
  const qx = m[j + 6];
  const qy = m[j + 7];
  const qz = m[j + 8];
  const rx = m[j + 9];
  const ry = m[j + 10];
  const rz = m[j + 11];
  const hp = b[half];
  const hq = b[half + 1];
  const hr = b[half + 2];
  const up = ux * px + uy * py + uz * pz;
  const uq = Math.abs(ux * qx + uy * qy + uz * qz);
  const ur = Math.abs(ux * rx + uy * ry + uz * rz);
  const vp = vx * px + vy * py + vz * pz;
  const vq = Math.abs(vx * qx + vy * qy + vz * qz);
  const vr = Math.abs(vx * rx + vy * ry + vz * rz);
  const wp = wx * px + wy * py + wz * pz;
  const wq = Math.abs(wx * qx + wy * qy + wz * qz);
  const wr = Math.abs(wx * rx + wy * ry + wz * rz);
  const mup = Math.abs(up);
  const mvp = Math.abs(vp);
  const mwp = Math.abs(wp);
  const hu = a[i + 12] + slack;
  const hv = a[i + 13] + slack;
  const hw = a[i + 14] + slack;
  const dv = dx * vx + dy * vy + dz * vz;
  const dw = dx * wx + dy * wy + dz * wz;
  const g0 = Math.abs(dx * ux + dy * uy + dz * uz) - (hu + mup * hp + uq * hq + ur * hr);
  const g1 = Math.abs(dv) - (hv + mvp * hp + vq * hq + vr * hr);
  const g2 = Math.abs(dw) - (hw + mwp * hp + wq * hq + wr * hr);
  const k0 = Math.abs(dx * px + dy * py + dz * pz) - (hp + mup * hu + mvp * hv + mwp * hw + slack);
  const k1 = Math.abs(dx * qx + dy * qy + dz * qz) - (hq + uq * hu + vq * hv + wq * hw + slack);
  const k2 = Math.abs(dx * rx + dy * ry + dz * rz) - (hr + ur * hu + vr * hv + wr * hw + slack);
  let first = 0;
  if (g0 > 0) first += g0 * g0;
  if (g1 > 0) first += g1 * g1;
  if (g2 > 0) first += g2 * g2;
  let second = 0;
  if (k0 > 0) second += k0 * k0;
  if (k1 > 0) second += k1 * k1;
  if (k2 > 0) second += k2 * k2;
  const best = Math.max(first, second);
  if (best > enough) return best;
  const nn = vp * vp + wp * wp;
  if (nn < LEAST_SINE_SQ) return best;
  const across = Math.abs(dw * vp - dv * wp) - hv * mwp - hw * mvp - hq * ur - hr * uq - 2 * slack;
  if (across <= 0) return best;
  const third = (across * across) / nn;
  return Math.max(third, best);
}
