import { isCovered } from '../clearance/body.ts';
import type { Setup } from '../sweep/setUp.ts';
import { PoseSpan } from './poseSpan.ts';
import { MovedBoxes } from './proveBoxes.ts';
import { type SurfacePair, surfacePairsOf } from './surfacePairs.ts';

/** Bounds to try, as distances below the smaller clearance of the two poses, in this order, mm. */
const DROPS_MM = [0.1, 0.4, 1.6, 6.4];
/** Largest number of halvings of a path: 2^4 parts. */
const MAX_HALVINGS = 4;
/** Pairs of triangles measured in a part before it is halved. */
const MAX_TRIANGLE_PAIRS = 2000;
/**
 * Pairs of boxes and triangles evaluated in a part before it is halved: far more than a part of a usual corner needs.
 */
const MAX_EVALUATIONS = 2_000_000;
/**
 * A part is halved before any search if the error of its motion model exceeds this share of the bound, as in the
 * proof of a pair.
 */
const REST_SHARE = 1 / 4;

/** A pose, by its travel and steer. */
export interface Place {
  travelMm: number;
  steer: number;
}

/** Proves lower bounds of a pair's clearance along the straight path between two neighbouring poses. */
export class BetweenProver {
  private readonly setup: Setup;
  private readonly boxes = new MovedBoxes();
  private readonly surfacePairs = new Map<number, readonly SurfacePair[]>();

  constructor(setup: Setup) {
    this.setup = setup;
  }

  /**
   * Lower bound of the pair's clearance everywhere between two poses, mm, between the meshes. `leastMm`: the smaller
   * clearance of the two poses; no larger bound is proved. -Infinity if nothing could be proved, and if the two poses
   * are on opposite sides of straight ahead.
   */
  lowerMm(pair: number, from: Place, to: Place, leastMm: number): number {
    if (!(leastMm > 0)) return Number.NEGATIVE_INFINITY;
    // The locks may differ, so across straight ahead the rack is not a linear function of steer.
    if (from.steer * to.steer < 0) return Number.NEGATIVE_INFINITY;
    const { pairs, bodies } = this.setup;
    const { a, b } = bodies[pair];
    if (isCovered(a) || isCovered(b)) return Number.NEGATIVE_INFINITY;
    if (!pairs[pair].moves) return leastMm;
    if (!a.closed || !b.closed) return Number.NEGATIVE_INFINITY;
    const surfacePairs = this.surfacePairs.get(pair) ?? surfacePairsOf(this.setup, pair, this.boxes);
    this.surfacePairs.set(pair, surfacePairs);
    for (const mm of DROPS_MM) {
      const provedMm = Math.max(leastMm - mm, leastMm / 2);
      if (this.provesBound(surfacePairs, from, to, provedMm, 0)) return provedMm;
    }
    return Number.NEGATIVE_INFINITY;
  }

  private provesBound(
    surfacePairs: readonly SurfacePair[],
    from: Place,
    to: Place,
    boundMm: number,
    halvings: number,
  ): boolean {
    const middle = { travelMm: (from.travelMm + to.travelMm) / 2, steer: (from.steer + to.steer) / 2 };
    const span = new PoseSpan(this.setup.mechanism, {
      ...middle,
      travelHalfMm: Math.abs(to.travelMm - from.travelMm) / 2,
      steerHalf: Math.abs(to.steer - from.steer) / 2,
    });
    const request = {
      boundMm,
      maxRestMm: REST_SHARE * boundMm,
      maxTrianglePairs: MAX_TRIANGLE_PAIRS,
      maxEvaluations: MAX_EVALUATIONS,
    };
    const failed =
      span.carriers === undefined
        ? undefined
        : surfacePairs.find((one) => !one.provesSeparation(span, request));
    if (span.carriers !== undefined && failed === undefined) return true;
    // The clearance at the middle is below the bound: halving does not help.
    if (failed !== undefined && failed.middleMm < boundMm) return false;
    return (
      halvings < MAX_HALVINGS &&
      this.provesBound(surfacePairs, from, middle, boundMm, halvings + 1) &&
      this.provesBound(surfacePairs, middle, to, boundMm, halvings + 1)
    );
  }
}
