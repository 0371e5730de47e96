import type { Rigid } from '../math/rigid.ts';
import type { Tree } from './tree.ts';
import { found, ROUNDING, triangleDistanceSq } from './triangleDistance.ts';

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
  private readonly absolute = new Float64Array(9);
  private readonly moved = new Float64Array(9);

  constructor(a: Tree, b: Tree) {
    this.a = a;
    this.b = b;
    const most = a.depth + b.depth + 2;
    this.stack = new Int32Array(2 * most);
    this.stackSq = new Float64Array(most);
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
      if (hintA >= 0) {
        this.moveTriangle(aFromB, hintB);
        this.tryPair(hintA, hintB);
      }
      if (!this.crossing) this.descend(aFromB);
    }
    if (this.triangleA < 0) this.distanceSq = Number.POSITIVE_INFINITY;
  }

  private descend(aFromB: Rigid): void {
    const { a, b, absolute, stack, stackSq } = this;

    const r0 = aFromB[0];
    const r1 = aFromB[1];
    const r2 = aFromB[2];
    const r3 = aFromB[4];
    const r4 = aFromB[5];
    const r5 = aFromB[6];
    const r6 = aFromB[8];
    const r7 = aFromB[9];
    const r8 = aFromB[10];
    const tx = aFromB[3];
    const ty = aFromB[7];
    const tz = aFromB[11];
    const slack = ROUNDING * (a.reachMm + b.reachMm + Math.abs(tx) + Math.abs(ty) + Math.abs(tz));
    for (let k = 0; k < 9; k++) absolute[k] = Math.abs(aFromB[k + ((k / 3) | 0)]);
    const [m0, m1, m2, m3, m4, m5, m6, m7, m8] = absolute;
    const boxesA = a.boxes;
    const boxesB = b.boxes;
    const rightA = a.right;
    const rightB = b.right;
    const radiiA = a.radii;
    const radiiB = b.radii;

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
          this.leaves(aFromB, nodeA, nodeB);
          if (this.crossing) return;
          break;
        }
        const splitA = leafB || (!leafA && radiiA[nodeA] >= radiiB[nodeB]);
        let firstSq = 0;
        let firstCentre = 0;
        let secondSq = 0;
        let secondCentre = 0;
        for (let child = 0; child < 2; child++) {
          const i = 6 * (splitA ? (child === 0 ? nodeA + 1 : rightA[nodeA]) : nodeA);
          const j = 6 * (splitA ? nodeB : child === 0 ? nodeB + 1 : rightB[nodeB]);
          const bx = boxesB[j];
          const by = boxesB[j + 1];
          const bz = boxesB[j + 2];
          const hbx = boxesB[j + 3];
          const hby = boxesB[j + 4];
          const hbz = boxesB[j + 5];
          const hax = boxesA[i + 3];
          const hay = boxesA[i + 4];
          const haz = boxesA[i + 5];
          const dx = r0 * bx + r1 * by + r2 * bz + tx - boxesA[i];
          const dy = r3 * bx + r4 * by + r5 * bz + ty - boxesA[i + 1];
          const dz = r6 * bx + r7 * by + r8 * bz + tz - boxesA[i + 2];
          let gx = Math.abs(dx) - (hax + m0 * hbx + m1 * hby + m2 * hbz + slack);
          let gy = Math.abs(dy) - (hay + m3 * hbx + m4 * hby + m5 * hbz + slack);
          let gz = Math.abs(dz) - (haz + m6 * hbx + m7 * hby + m8 * hbz + slack);
          gx = Math.max(gx, 0);
          gy = Math.max(gy, 0);
          gz = Math.max(gz, 0);
          const inA = gx * gx + gy * gy + gz * gz;
          gx = Math.abs(r0 * dx + r3 * dy + r6 * dz) - (hbx + m0 * hax + m3 * hay + m6 * haz + slack);
          gy = Math.abs(r1 * dx + r4 * dy + r7 * dz) - (hby + m1 * hax + m4 * hay + m7 * haz + slack);
          gz = Math.abs(r2 * dx + r5 * dy + r8 * dz) - (hbz + m2 * hax + m5 * hay + m8 * haz + slack);
          gx = Math.max(gx, 0);
          gy = Math.max(gy, 0);
          gz = Math.max(gz, 0);
          const inB = gx * gx + gy * gy + gz * gz;
          const sq = Math.max(inA, inB);
          const centre = dx * dx + dy * dy + dz * dz;
          if (child === 0) {
            firstSq = sq;
            firstCentre = centre;
          } else {
            secondSq = sq;
            secondCentre = centre;
          }
        }
        const swap = secondSq < firstSq || (secondSq === firstSq && secondCentre < firstCentre);
        const best = this.distanceSq;
        const farSq = swap ? firstSq : secondSq;
        if (farSq <= best) {
          stack[2 * top] = splitA ? (swap ? nodeA + 1 : rightA[nodeA]) : nodeA;
          stack[2 * top + 1] = splitA ? nodeB : swap ? nodeB + 1 : rightB[nodeB];
          stackSq[top] = farSq;
          top++;
        }
        if ((swap ? secondSq : firstSq) > best) break;
        if (splitA) nodeA = swap ? rightA[nodeA] : nodeA + 1;
        else nodeB = swap ? rightB[nodeB] : nodeB + 1;
      }
    }
  }

  private leaves(aFromB: Rigid, nodeA: number, nodeB: number): void {
    const { a, b } = this;
    const fromA = 9 * a.first[nodeA];
    const toA = fromA + 9 * a.count[nodeA];
    const fromB = 9 * b.first[nodeB];
    const toB = fromB + 9 * b.count[nodeB];
    for (let j = fromB; j < toB; j += 9) {
      this.moveTriangle(aFromB, j);
      for (let i = fromA; i < toA; i += 9) {
        this.tryPair(i, j);
        if (this.crossing) return;
      }
    }
  }

  /** Brings a triangle of B into the frame of A. */
  private moveTriangle(t: Rigid, j: number): void {
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
  }

  /** Measures triangle `i` of A against the triangle of B last moved, which is `j`. */
  private tryPair(i: number, j: number): void {
    const d = triangleDistanceSq(this.a.corners, i, this.moved, 0);
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
