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
    if (this.a.right.length > 0 && this.b.right.length > 0) {
      if (hintA >= 0) this.tryPair(aFromB, hintA, hintB);
      if (!this.crossing) this.descend(aFromB);
    }
    if (this.triangleA < 0) this.distanceSq = Number.POSITIVE_INFINITY;
  }

  private descend(aFromB: Rigid): void {
    const { a, b, stack, stackSq } = this;
    const rightA = a.right;
    const rightB = b.right;
    const boxesA = a.oriented;
    const boxesB = b.oriented;
    const slack =
      ROUNDING * (a.reachMm + b.reachMm + Math.abs(aFromB[3]) + Math.abs(aFromB[7]) + Math.abs(aFromB[11]));
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
        const splitA = leafB || (!leafA && boxesA[BOX * nodeA + 15] >= boxesB[BOX * nodeB + 15]);
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
  const up = Math.abs(ux * px + uy * py + uz * pz);
  const uq = Math.abs(ux * qx + uy * qy + uz * qz);
  const ur = Math.abs(ux * rx + uy * ry + uz * rz);
  const vp = Math.abs(vx * px + vy * py + vz * pz);
  const vq = Math.abs(vx * qx + vy * qy + vz * qz);
  const vr = Math.abs(vx * rx + vy * ry + vz * rz);
  const wp = Math.abs(wx * px + wy * py + wz * pz);
  const wq = Math.abs(wx * qx + wy * qy + wz * qz);
  const wr = Math.abs(wx * rx + wy * ry + wz * rz);
  const hu = a[i + 12] + slack;
  const hv = a[i + 13] + slack;
  const hw = a[i + 14] + slack;
  let g0 = Math.max(0, Math.abs(dx * ux + dy * uy + dz * uz) - (hu + up * hp + uq * hq + ur * hr));
  let g1 = Math.max(0, Math.abs(dx * vx + dy * vy + dz * vz) - (hv + vp * hp + vq * hq + vr * hr));
  let g2 = Math.max(0, Math.abs(dx * wx + dy * wy + dz * wz) - (hw + wp * hp + wq * hq + wr * hr));
  const first = g0 * g0 + g1 * g1 + g2 * g2;
  if (first > enough) return first;
  g0 = Math.max(0, Math.abs(dx * px + dy * py + dz * pz) - (hp + up * hu + vp * hv + wp * hw + slack));
  g1 = Math.max(0, Math.abs(dx * qx + dy * qy + dz * qz) - (hq + uq * hu + vq * hv + wq * hw + slack));
  g2 = Math.max(0, Math.abs(dx * rx + dy * ry + dz * rz) - (hr + ur * hu + vr * hv + wr * hw + slack));
  const second = Math.max(first, g0 * g0 + g1 * g1 + g2 * g2);
  if (second > enough) return second;
  const nx = uy * pz - uz * py;
  const ny = uz * px - ux * pz;
  const nz = ux * py - uy * px;
  const nn = nx * nx + ny * ny + nz * nz;
  if (nn < LEAST_SINE_SQ) return second;
  const across =
    Math.abs(dx * nx + dy * ny + dz * nz) -
    hv * Math.abs(vx * nx + vy * ny + vz * nz) -
    hw * Math.abs(wx * nx + wy * ny + wz * nz) -
    hq * Math.abs(qx * nx + qy * ny + qz * nz) -
    hr * Math.abs(rx * nx + ry * ny + rz * nz) -
    2 * slack;
  return across > 0 ? Math.max(second, (across * across) / nn) : second;
}
