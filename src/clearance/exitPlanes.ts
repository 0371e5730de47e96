import { nearestHit, pointTriangleDistanceSq } from './closestPoint.ts';
import type { DepthProbe, EvaluatedPoint } from './depthProbe.ts';
import { isHullOutside } from './hullOutside.ts';
import type { Tree } from './tree.ts';
import { putNormal } from './triangleNormal.ts';

/** A point nearer than this to the surface does not define a direction out of it; the triangle's normal does. */
const ON_SURFACE_MM = 1e-6;
/** Steps of the search for the best mean of two planes. Each step keeps two thirds of the range. */
const MEAN_STEPS = 12;

/** Limits that decide how a piece is bounded. */
export interface DepthGoal {
  /** Points no deeper than this are ignored, mm. */
  doneMm: number;
  /** Distance of a plane beyond the surface, mm. */
  marginMm: number;
}

/**
 * Upper bounds of the depth of a piece inside a closed surface, from planes. If the projection of the piece on a
 * plane is outside, the line from each inner point to its projection crosses the surface. So no point is deeper than
 * its distance from the plane. With two such planes, no point is deeper than any mean of both distances. Such a mean
 * is convex, so its greatest value is at a corner. Between the faces of a wall this bound is half the wall's
 * thickness, and about an axis the radius, however large the piece is. With only one plane, pieces near a medial
 * surface would have to be as small as the tolerance.
 */
export class ExitPlanes {
  private readonly closed: Tree;
  private readonly probe: DepthProbe;
  /** Unit normal out of the closed surface, and the plane's offset along it. */
  private readonly one = new Float64Array(4);
  private readonly other = new Float64Array(4);
  private readonly flat = new Float64Array(24);

  constructor(closed: Tree, probe: DepthProbe) {
    this.closed = closed;
    this.probe = probe;
  }

  /**
   * A proven upper bound of the depths in the hull of `count` corners, mm; +Infinity if none below `boundMm` is
   * found. `middle`: a point of the hull.
   */
  boundOf(
    hull: Float64Array,
    count: number,
    middle: EvaluatedPoint,
    boundMm: number,
    { doneMm, marginMm }: DepthGoal,
  ): number {
    const { closed, probe, one, other } = this;
    const { x, y, z, insideMm, triangle } = middle;
    pointTriangleDistanceSq(x, y, z, closed.corners, triangle);
    if (!this.setPlane(one, x, y, z, insideMm, nearestHit.point, triangle)) return Number.POSITIVE_INFINITY;
    let leastMm = Number.POSITIVE_INFINITY;
    let mostMm = Number.NEGATIVE_INFINITY;
    let deepest = 0;
    for (let k = 0; k < 3 * count; k += 3) {
      const along = one[0] * hull[k] + one[1] * hull[k + 1] + one[2] * hull[k + 2];
      mostMm = Math.max(mostMm, along);
      if (along >= leastMm) continue;
      leastMm = along;
      deepest = k;
    }
    const exitMm = one[3];
    one[3] = leastMm + doneMm;
    if (one[3] >= exitMm + marginMm / 8 && mostMm - one[3] <= doneMm)
      return this.isProjectionOutside(one, hull, count) ? doneMm : Number.POSITIVE_INFINITY;
    one[3] = exitMm;
    const [px, py, pz] = [hull[deepest], hull[deepest + 1], hull[deepest + 2]];
    probe.evaluate(px, py, pz, middle);
    if (!this.setPlane(other, px, py, pz, probe.insideMm, probe.foot, probe.triangle))
      return Number.POSITIVE_INFINITY;
    one[3] += marginMm;
    other[3] += marginMm;
    const lowerMm = this.leastMean(hull, count);
    if (lowerMm > doneMm && lowerMm >= boundMm - marginMm / 4) return Number.POSITIVE_INFINITY;
    const isProven =
      this.isProjectionOutside(one, hull, count) && this.isProjectionOutside(other, hull, count);
    return isProven ? lowerMm : Number.POSITIVE_INFINITY;
  }

  /**
   * Sets a plane through the point of the surface nearest to a point, with its normal out of the surface. False if
   * there is no direction.
   */
  private setPlane(
    plane: Float64Array,
    x: number,
    y: number,
    z: number,
    insideMm: number,
    foot: Float64Array,
    triangle: number,
  ): boolean {
    if (Math.abs(insideMm) > ON_SURFACE_MM) {
      const sign = insideMm > 0 ? 1 : -1;
      plane[0] = sign * (foot[0] - x);
      plane[1] = sign * (foot[1] - y);
      plane[2] = sign * (foot[2] - z);
    } else {
      putNormal(plane, 0, this.closed.corners, triangle);
    }
    const size = Math.sqrt(plane[0] * plane[0] + plane[1] * plane[1] + plane[2] * plane[2]);
    if (!(size > 0)) return false;
    for (let k = 0; k < 3; k++) plane[k] /= size;
    plane[3] = plane[0] * x + plane[1] * y + plane[2] * z + insideMm;
    return true;
  }

  /** Whether the hull's projection on a plane is proved to be outside. */
  private isProjectionOutside(plane: Float64Array, hull: Float64Array, count: number): boolean {
    const { flat } = this;
    for (let k = 0; k < 3 * count; k += 3) {
      const up = distanceTo(plane, hull, k);
      for (let c = 0; c < 3; c++) flat[k + c] = hull[k + c] + up * plane[c];
    }
    this.probe.evaluations++;
    return isHullOutside(this.closed, flat, count, plane);
  }

  /**
   * The smallest bound from a mean of the distances to both planes: the least, over all means, of the greatest value
   * at a corner.
   */
  private leastMean(hull: Float64Array, count: number): number {
    let low = 0;
    let high = 1;
    for (let step = 0; step < MEAN_STEPS; step++) {
      const left = low + (high - low) / 3;
      const right = high - (high - low) / 3;
      if (this.greatestMean(left, hull, count) <= this.greatestMean(right, hull, count)) high = right;
      else low = left;
    }
    return this.greatestMean((low + high) / 2, hull, count);
  }

  private greatestMean(share: number, hull: Float64Array, count: number): number {
    const { one, other } = this;
    let most = Number.NEGATIVE_INFINITY;
    for (let k = 0; k < 3 * count; k += 3) {
      const toOther = Math.abs(distanceTo(other, hull, k));
      most = Math.max(most, toOther + share * (Math.abs(distanceTo(one, hull, k)) - toOther));
    }
    return most;
  }
}

/** Distance of the point at `k` from a plane, positive on the inner side. */
const distanceTo = (plane: Float64Array, hull: Float64Array, k: number): number =>
  plane[3] - (plane[0] * hull[k] + plane[1] * hull[k + 1] + plane[2] * hull[k + 2]);
