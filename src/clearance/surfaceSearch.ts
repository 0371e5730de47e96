/**
 * Tried bounds, each with the processor time of a query on the tyre / barrel / rotor pairs of tests/bench/query.ts
 * (12,000 triangles a side, no limit, nearest pair of the last pose tried first, one machine):
 * - oriented boxes, one triangle per leaf, bounded in the axes of both and across both longest sides: 0.31 / 0.14 /
 *   0.11 ms, crossing rods 0.012 ms. Kept.
 * - without the bound across the longest sides: 0.29 / 0.18 / 0.12 ms, but crossing rods 0.064 ms, and ten times as
 *   long as the kept version on arms against dampers.
 * - bounded in the axes of one box only: 0.27 / 1.33 / 0.15 ms. Long thin boxes look near from one side.
 * - after a bound from the boxes' bounding spheres: 0.30 / 0.17 / 0.13 ms. No gain for one more test.
 * - boxes along the axes of each mesh, bounded in both, two triangles in some leaves: tyre 6.2, rotor 0.63 ms. A
 *   slanting patch of surface fills its axis-parallel box badly.
 * - trees split at the middle (CENTER) instead of by surface area: built 20 ms sooner, 0.29 / 0.19 / 0.15 ms, and 1.6
 *   times slower if no earlier pair is known.
 *
 * On a long-travel corner of 24 bodies, time of all pairs over a ninth of the sweep, each relative to the search at
 * that time:
 * - thicker box split first (sum of the two lesser sides), and triangles skipped that the slab between the nearest
 *   points so far separates: 0.61 of the time of splitting the larger diagonal and measuring every triangle. Kept.
 *   The split rule alone halves the number of bounded boxes where an arm is inside a wheel.
 * - splitting by the box's area, its middle side, its least side or its volume: 1.15, 1.03, 1.08, 1.06 times the
 *   boxes.
 * - three more directions across both boxes: 0.93 of the boxes, 0.975 of the time; all nine 0.89 of the boxes. The
 *   exact distance of the boxes could bring no more than 0.76.
 * - trees split along the principal axes of each node, by surface area: 0.95 of the boxes, and twice the time to
 *   build.
 * - pairs pruned at the last pose kept with their separating direction, tested again along that direction only, and
 *   not before the bodies have moved as far as their gap: 0.85 of the time at the usual steps, 0.65 at four times the
 *   steps (nine in ten are still separated). Kept. With the old gap minus the motion alone, 1.25.
 * - the same pairs tested along their direction at both ends of a nearly straight stretch of poses, and at the poses
 *   between only if that result, less the deviation from the straight line, was not enough: 0.7 of the tests at those
 *   poses, but 1.09 to 1.44 times as many in all, and 1.18 times the time.
 * - path counted by the lesser of the motions of either body in the frame of the other: 0.93 of the tests, no time
 *   gained.
 *
 * On the same demo, processor time of the whole sweep:
 * - path counted separately for up to 15 / 31 / 63 patches of either surface, each pair by the patch that moves less:
 *   0.84 / 0.83 / 0.80 of the tests at four times the steps, no time gained over a single patch (0.98 to 1.05). Where
 *   the box of a lower arm moves 14.7 mm against the wheel, the gaps in its front shrink by about 1 mm (median).
 * - tests with the pose in separate variables and the extent written out: 0.97 to 1.01.
 * - a front discarded at 1.25 times or twice its length, not 1.5 times: 0.94 to 1.03, 1.08 to 1.19.
 * - triangle pairs from the front bounded by their flat boxes before they are measured: 1.05 to 1.10.
 * - of the pairs that the front no longer separates, the apparently nearest measured first, then the others skipped
 *   if now separated along their direction: 2 to 6 in a hundred are, no time gained. Most others share corners with
 *   the nearest pair.
 * - leaves of up to 4 triangles split at the middle of their widest side, not by surface area: 1.01 to 1.09, and no
 *   less time to build.
 */
import type { Rigid } from '../math/rigid.ts';
import { beginPose, centresSq, gapSq, moveBox, reserveBoxes, thickness } from './boxGap.ts';
import { Front, reopened } from './front.ts';
import { maxDisplacementMm } from './motionBound.ts';
import { BOX } from './orientedBoxes.ts';
import { openNode, type Tree } from './tree.ts';
import { ROUNDING, triangleDistanceSq, trianglePair } from './triangleDistance.ts';
import type { Remainder, Trim } from './trim.ts';

/** Rounding of sums with the path, as a share of it: sixteen units in the last place. */
const PATH_ROUNDING = 2 ** -48;
/** A front that has grown by this factor plus this margin is rebuilt. */
const FRONT_GROWTH = 1.5;
const FRONT_MARGIN = 64;

/**
 * The nearest pair of triangles of two surfaces. Descends both trees together, nearer child first, thicker node
 * split, and prunes at the best distance so far. Pruned pairs are kept with their separating direction. The next
 * search, at a nearby pose, descends only into pairs that are no longer separated. Lower bounds allow for rounding,
 * and only pairs strictly further away are pruned. A crossing pair comes before every other; among equal pairs the
 * first in the order of the leaves is kept. So whether triangles cross, and the pair if none do, are the same bits
 * after any earlier pose. The crossing at which a search ends depends on where it began: after `reset`, on the pose
 * and the limit alone.
 */
export class SurfaceSearch {
  /** Squared distance of the nearest pair; Infinity if none is within the limit. */
  distanceSq = Number.POSITIVE_INFINITY;
  /** Nearest points in the frame of A. */
  readonly pointA = new Float64Array(3);
  readonly pointB = new Float64Array(3);
  /** Triangles of the nearest pair, as offsets into `corners`; -1 for none. */
  triangleA = -1;
  triangleB = -1;
  /** Whether two triangles cross. The search ends at the first crossing. */
  crossing = false;
  /**
   * Upper bound of the relative motion of the bodies, summed over all poses so far, mm. Since an earlier pose, two
   * points of them cannot have come nearer by more than the growth of this.
   */
  pathMm = 0;
  private readonly a: Tree;
  private readonly b: Tree;
  private readonly trimA: Trim | undefined;
  private readonly trimB: Trim | undefined;
  private readonly boxB: Float64Array;
  private readonly lastPose = new Float64Array(12);
  private readonly front = new Front();
  /** Size of the front when it was built; -1 while it does not cover everything. */
  private frontMade = -1;
  /** Node of A, node of B. */
  private readonly stack: Int32Array;
  private readonly stackSq: Float64Array;
  private readonly moved = new Float64Array(9);
  /** Boxes of a triangle of A in B's frame, and of B in A's: least x y z, greatest x y z. */
  private readonly boxOfA = new Float64Array(6);
  private readonly boxOfB = new Float64Array(6);
  /** Separating direction of the last nodes or triangles, and the gap of the triangles. */
  private readonly direction = new Float64Array(3);
  private gapMm = 0;
  /** Greatest rounding of a coordinate at this pose, mm. */
  private slack = 0;

  /** `trimA`, `trimB`: the cuts of the surfaces by zones at the current pose only. */
  constructor(a: Tree, b: Tree, trimA?: Trim, trimB?: Trim) {
    this.a = a;
    this.b = b;
    this.trimA = trimA;
    this.trimB = trimB;
    this.boxB = boxOfRoot(b);
    const most = a.depth + b.depth + 2;
    this.stack = new Int32Array(2 * most);
    this.stackSq = new Float64Array(most);
    reserveBoxes(b.right.length);
  }

  /** Discards the results of earlier poses. */
  reset(): void {
    this.triangleA = -1;
    this.triangleB = -1;
    this.frontMade = -1;
    this.pathMm = 0;
  }

  /** Whether the path is so long that sums with it round by more than the allowance. */
  get needsReset(): boolean {
    return PATH_ROUNDING * this.pathMm > this.slack;
  }

  /** Sets the pose. */
  moveTo(aFromB: Rigid): void {
    this.slack =
      ROUNDING *
      (this.a.reachMm + this.b.reachMm + Math.abs(aFromB[3]) + Math.abs(aFromB[7]) + Math.abs(aFromB[11]));
    this.pathMm += maxDisplacementMm(this.boxB, this.lastPose, aFromB) + this.slack;
    this.lastPose.set(aFromB);
  }

  /** Searches at the current pose. Allocates memory only if the front outgrows its arrays. */
  run(limitMm: number): void {
    const { front, a, b } = this;
    this.crossing = false;
    this.distanceSq = limitMm * limitMm;
    const hintA = this.triangleA;
    const hintB = this.triangleB;
    this.triangleA = -1;
    this.triangleB = -1;
    if (a.right.length > 0 && b.right.length > 0) {
      beginPose();
      if (hintA >= 0) this.tryPair(hintA, hintB);
      if (!this.crossing) {
        if (this.frontMade < 0 || front.count > FRONT_GROWTH * this.frontMade + FRONT_MARGIN) {
          front.clear();
          this.descend(0, 0);
          this.frontMade = front.count;
        } else this.searchFront();
      }
      if (this.crossing) this.frontMade = -1;
    }
    if (this.triangleA < 0) this.distanceSq = Number.POSITIVE_INFINITY;
  }

  /** Descends where the front no longer separates. Pairs of triangles first: they lower the best distance. */
  private searchFront(): void {
    const { a, b, front, slack } = this;
    const thresholdMm = Math.sqrt(this.distanceSq) + 4 * slack;
    const reopenedEnd = 2 * front.filter(b, this.lastPose, this.pathMm, thresholdMm);
    for (let d = 0; d < reopenedEnd && !this.crossing; d += 2) {
      const nodeA = reopened[d];
      const nodeB = reopened[d + 1];
      if (a.right[nodeA] === 0 && b.right[nodeB] === 0) this.measureLeaves(nodeA, nodeB);
    }
    for (let d = 0; d < reopenedEnd && !this.crossing; d += 2) {
      const nodeA = reopened[d];
      const nodeB = reopened[d + 1];
      if (a.right[nodeA] === 0 && b.right[nodeB] === 0) continue;
      if (this.boundSq(nodeA, nodeB) <= this.distanceSq) this.descend(nodeA, nodeB);
    }
  }

  private measureLeaves(nodeA: number, nodeB: number): void {
    const { a, b, direction } = this;
    this.tryPair(9 * a.first[nodeA], 9 * b.first[nodeB]);
    const size = Math.sqrt(
      direction[0] * direction[0] + direction[1] * direction[1] + direction[2] * direction[2],
    );
    for (let k = 0; k < 3; k++) direction[k] = size > 0 ? direction[k] / size : 0;
    this.front.add(a, nodeA, nodeB, direction, this.gapMm + this.pathMm);
  }

  /** Lower bound of the squared distance of two nodes. Adds the pair to the front if it is above the best. */
  private boundSq(nodeA: number, nodeB: number): number {
    const { a, b, direction, distanceSq } = this;
    openNode(a, nodeA);
    openNode(b, nodeB);
    moveBox(this.lastPose, b.oriented, nodeB);
    const sq = gapSq(direction, a.oriented, BOX * nodeA, b.oriented, nodeB, this.slack, distanceSq);
    if (sq > distanceSq) this.front.add(a, nodeA, nodeB, direction, Math.sqrt(sq) + this.pathMm);
    return sq;
  }

  private descend(fromA: number, fromB: number): void {
    const { a, b, stack, stackSq } = this;
    const rightA = a.right;
    const rightB = b.right;
    const boxesA = a.oriented;
    const boxesB = b.oriented;
    openNode(a, fromA);
    openNode(b, fromB);
    moveBox(this.lastPose, boxesB, fromB);
    let top = 1;
    stack[0] = fromA;
    stack[1] = fromB;
    stackSq[0] = 0;
    while (top > 0) {
      top--;
      let nodeA = stack[2 * top];
      let nodeB = stack[2 * top + 1];
      if (stackSq[top] > this.distanceSq) {
        this.boundSq(nodeA, nodeB);
        continue;
      }
      for (;;) {
        const leafA = rightA[nodeA] === 0;
        const leafB = rightB[nodeB] === 0;
        if (leafA && leafB) {
          this.measureLeaves(nodeA, nodeB);
          if (this.crossing) return;
          break;
        }
        const best = this.distanceSq;
        const splitA = leafB || (!leafA && thickness(boxesA, BOX * nodeA) >= thickness(boxesB, BOX * nodeB));
        let nearA = splitA ? nodeA + 1 : nodeA;
        let nearB = splitA ? nodeB : nodeB + 1;
        let farA = splitA ? rightA[nodeA] : nodeA;
        let farB = splitA ? nodeB : rightB[nodeB];
        let nearSq = this.boundSq(nearA, nearB);
        let farSq = this.boundSq(farA, farB);
        if (
          farSq < nearSq ||
          (farSq === nearSq && centresSq(boxesA, BOX * farA, farB) < centresSq(boxesA, BOX * nearA, nearB))
        ) {
          [nearA, farA, nearB, farB, nearSq, farSq] = [farA, nearA, farB, nearB, farSq, nearSq];
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
  private tryPair(i: number, j: number): void {
    const { direction } = this;
    const leftA = this.trimA?.remainderOf(i);
    const leftB = this.trimB?.remainderOf(j);
    if (leftA?.triangles.length === 0 || leftB?.triangles.length === 0) {
      // No direction separates them once the zone has moved.
      direction.fill(0);
      this.gapMm = 0;
      return;
    }
    this.move(this.b.corners, j);
    if (this.triangleA >= 0 && this.isBehindSlab(this.a.corners, i)) {
      for (let k = 0; k < 3; k++) direction[k] = this.pointB[k] - this.pointA[k];
      this.gapMm = Math.sqrt(this.distanceSq);
      return;
    }
    const d = triangleDistanceSq(this.a.corners, i, this.moved, 0);
    const { points } = trianglePair;
    for (let k = 0; k < 3; k++) direction[k] = points[k + 3] - points[k];
    this.gapMm = Math.sqrt(d);
    if (leftA === undefined && leftB === undefined) {
      if (d <= this.distanceSq) this.storeNearest(d, i, j);
      return;
    }
    // Rounding can make a part of a triangle nearer than the whole triangle.
    if (this.gapMm - this.slack <= Math.sqrt(this.distanceSq)) this.tryParts(i, j, leftA, leftB);
  }

  /** Measures remainders of a triangle of A and of B; undefined: the whole one. `moved` is B's triangle. */
  private tryParts(i: number, j: number, leftA: Remainder | undefined, leftB: Remainder | undefined): void {
    const { boxOfA, boxOfB, slack } = this;
    const cornersA = leftA?.triangles ?? this.a.corners;
    const cornersB = leftB?.triangles ?? this.b.corners;
    const [fromA, endA] = leftA === undefined ? [i, i + 9] : [0, cornersA.length];
    const [fromB, endB] = leftB === undefined ? [j, j + 9] : [0, cornersB.length];
    boxOf(boxOfB, this.moved);
    this.moveBack(this.a.corners, i);
    boxOf(boxOfA, this.moved);
    for (let q = fromB; q < endB; q += 9) {
      if (leftB !== undefined && isBeyond(leftB.boxes, (6 * q) / 9, boxOfA, this.distanceSq, slack)) continue;
      this.move(cornersB, q);
      for (let p = fromA; p < endA && !this.crossing; p += 9) {
        if (leftA !== undefined && isBeyond(leftA.boxes, (6 * p) / 9, boxOfB, this.distanceSq, slack))
          continue;
        if (this.triangleA >= 0 && this.isBehindSlab(cornersA, p)) continue;
        const d = triangleDistanceSq(cornersA, p, this.moved, 0);
        if (d <= this.distanceSq) this.storeNearest(d, i, j);
      }
    }
  }

  /** Moves a triangle of A into the frame of B. */
  private moveBack(corners: Float64Array, i: number): void {
    const { moved, lastPose: t } = this;
    for (let k = 0; k < 9; k += 3) {
      const x = corners[i + k] - t[3];
      const y = corners[i + k + 1] - t[7];
      const z = corners[i + k + 2] - t[11];
      moved[k] = t[0] * x + t[4] * y + t[8] * z;
      moved[k + 1] = t[1] * x + t[5] * y + t[9] * z;
      moved[k + 2] = t[2] * x + t[6] * y + t[10] * z;
    }
  }

  /** Moves a triangle of B into the frame of A. */
  private move(corners: Float64Array, j: number): void {
    const { moved, lastPose: t } = this;
    for (let k = 0; k < 9; k += 3) {
      const x = corners[j + k];
      const y = corners[j + k + 1];
      const z = corners[j + k + 2];
      moved[k] = t[0] * x + t[1] * y + t[2] * z + t[3];
      moved[k + 1] = t[4] * x + t[5] * y + t[6] * z + t[7];
      moved[k + 2] = t[8] * x + t[9] * y + t[10] * z + t[11];
    }
  }

  /** Stores the last measured pair as the nearest, unless an equally near pair without crossing comes first. */
  private storeNearest(sq: number, i: number, j: number): void {
    if (!trianglePair.crossing && sq === this.distanceSq && this.triangleA >= 0 && this.isLater(i, j)) return;
    this.distanceSq = sq;
    this.triangleA = i;
    this.triangleB = j;
    this.crossing = trianglePair.crossing;
    const { points } = trianglePair;
    for (let k = 0; k < 3; k++) {
      this.pointA[k] = points[k];
      this.pointB[k] = points[k + 3];
    }
  }

  /**
   * Whether the slab between the nearest points so far separates the triangle of A at `i` and the moved triangle by
   * more than the nearest distance. Near the nearest points this excludes most neighbours.
   */
  private isBehindSlab(corners: Float64Array, i: number): boolean {
    const { pointA, pointB, moved } = this;
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

/** The box of a whole tree as least x y z, greatest x y z. */
function boxOfRoot({ boxes }: Tree): Float64Array {
  const from = (sign: number) =>
    [0, 1, 2].map((k) => (boxes.length > 0 ? boxes[k] + sign * boxes[3 + k] : -sign));
  return Float64Array.from([...from(-1), ...from(1)]);
}

/** Writes the box of a triangle: least x y z, greatest x y z. */
function boxOf(box: Float64Array, triangle: Float64Array): void {
  for (let k = 0; k < 3; k++) {
    box[k] = Math.min(triangle[k], triangle[k + 3], triangle[k + 6]);
    box[k + 3] = Math.max(triangle[k], triangle[k + 3], triangle[k + 6]);
  }
}

/** Whether one of the boxes is further than this from another box. */
function isBeyond(
  boxes: Float64Array,
  b: number,
  box: Float64Array,
  distanceSq: number,
  slack: number,
): boolean {
  const x = Math.max(0, boxes[b] - box[3], box[0] - boxes[b + 3]) - slack;
  const y = Math.max(0, boxes[b + 1] - box[4], box[1] - boxes[b + 4]) - slack;
  const z = Math.max(0, boxes[b + 2] - box[5], box[2] - boxes[b + 5]) - slack;
  return (x > 0 ? x * x : 0) + (y > 0 ? y * y : 0) + (z > 0 ? z * z : 0) > distanceSq;
}
