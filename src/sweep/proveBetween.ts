import { isCovered } from '../clearance/body.ts';
import { PoseSpan } from './poseSpan.ts';
import { MovedBoxes } from './proveBoxes.ts';
import { type Watched, watchedOf } from './proveWatched.ts';
import type { Setup } from './setUp.ts';

/** How far below the lesser clearance of two neighbouring steps the proof is tried, one after the other, mm. */
const TRIED_MM = [0.1, 0.4, 1.6, 6.4];
/** A way is cut into so many parts at most, by halves: 2^4. */
const MOST_HALVINGS = 4;
/** Pairs of triangles measured in a part before it is halved. */
const MOST_PAIRS = 2000;
/** Pairs of boxes and triangles looked at in a part before it is halved: far more than a part of a usual corner takes. */
const MOST_LOOKS = 2_000_000;
/** As in the proof of a pair: parts over which the motion is less well known are halved before any search. */
const REST_SHARE = 1 / 4;

/** A pose, by what poses it. */
export interface Place {
  travelMm: number;
  steer: number;
}

/** Proves of one pair after the other what lies between two neighbouring poses, on the straight way from one to the other. */
export class BetweenProver {
  private readonly setup: Setup;
  private readonly boxes = new MovedBoxes();
  private readonly watched = new Map<number, readonly Watched[]>();

  constructor(setup: Setup) {
    this.setup = setup;
  }

  /**
   * A clearance that the pair keeps everywhere between two poses, mm, as measured between the two meshes. `leastMm`: of
   * the clearances at the two poses the lesser; no more than that is proved. -Infinity where nothing could be proved, and
   * where the two are on either side of straight ahead.
   */
  lowerMm(pair: number, from: Place, to: Place, leastMm: number): number {
    if (!(leastMm > 0)) return Number.NEGATIVE_INFINITY;
    // Lock may be another to the other side: the rack is no one function of steer across straight ahead.
    if (from.steer * to.steer < 0) return Number.NEGATIVE_INFINITY;
    const { pairs, bodies } = this.setup;
    const { a, b } = bodies[pair];
    if (isCovered(a) || isCovered(b)) return Number.NEGATIVE_INFINITY;
    if (!pairs[pair].moves) return leastMm;
    if (!a.closed || !b.closed) return Number.NEGATIVE_INFINITY;
    const watched = this.watched.get(pair) ?? watchedOf(this.setup, pair, this.boxes);
    this.watched.set(pair, watched);
    for (const mm of TRIED_MM) {
      const provedMm = Math.max(leastMm - mm, leastMm / 2);
      if (this.keeps(watched, from, to, provedMm, 0)) return provedMm;
    }
    return Number.NEGATIVE_INFINITY;
  }

  private keeps(
    watched: readonly Watched[],
    from: Place,
    to: Place,
    leastMm: number,
    halvings: number,
  ): boolean {
    const middle = { travelMm: (from.travelMm + to.travelMm) / 2, steer: (from.steer + to.steer) / 2 };
    const span = new PoseSpan(this.setup.mechanism, {
      ...middle,
      travelHalfMm: Math.abs(to.travelMm - from.travelMm) / 2,
      steerHalf: Math.abs(to.steer - from.steer) / 2,
    });
    const asked = { leastMm, mostRestMm: REST_SHARE * leastMm, mostPairs: MOST_PAIRS, mostLooks: MOST_LOOKS };
    const failed = span.carriers === undefined ? undefined : watched.find((one) => !one.keeps(span, asked));
    if (span.carriers !== undefined && failed === undefined) return true;
    // At the middle itself it is nearer: no halving helps.
    if (failed !== undefined && failed.middleMm < leastMm) return false;
    return (
      halvings < MOST_HALVINGS &&
      this.keeps(watched, from, middle, leastMm, halvings + 1) &&
      this.keeps(watched, middle, to, leastMm, halvings + 1)
    );
  }
}
