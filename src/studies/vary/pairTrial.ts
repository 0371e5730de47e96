import { lowerEndMm } from '../../clearance/reportedClearance.ts';
import type { Findings, PairFinding, PairState } from '../../findings/findings.ts';
import type { Vec3 } from '../../math/vec.ts';
import type { Setup } from '../../sweep/setUp.ts';

/** Where a pair is worst: as a tight spot, without all carriers of its pose. */
export interface TrialSpot {
  travelMm: number;
  steer: number;
  roadWheelAngleDeg: number;
  clearanceMm: number;
  errorMm: number;
  /** clearance - target - allowances. */
  marginMm: number;
  /** Vehicle axes at the pose, left corner. */
  pointA: Vec3;
  pointB: Vec3;
}

/** What came of one pair in one variant of a corner. */
export interface PairTrial {
  /** Ids of the two solids, and what people call them. */
  a: string;
  b: string;
  labelA: string;
  labelB: string;
  moves: boolean;
  state: PairState;
  targetMm: number;
  targetOrigin: string;
  allowanceMm: number;
  /** Undefined for far pairs and for pairs of which nothing is known. */
  worst: TrialSpot | undefined;
  /**
   * What is left over target and allowances at every pose, all errors taken off; below 0, what is missing. Infinity for
   * a pair that is far; NaN where it is not known. Of a pair that touches it tells how deep the deepest point found lies:
   * neither the most between steps, nor how far a part would have to be moved.
   */
  leastMarginMm: number;
}

/** Whether a pair has all the daylight that is wanted, everywhere and with its errors. */
export const pairFits = ({ state }: PairTrial): boolean => state === 'clear' || state === 'far';

/** Whether a pair is known to have less than is wanted; a pair that is `unknown` neither fits nor fails. */
export const pairFails = ({ state }: PairTrial): boolean => state === 'touches' || state === 'tight';

/** The findings about a corner's pairs, in the order of the pairs. */
export function pairTrials(setup: Setup, findings: Findings): PairTrial[] {
  const trials: PairTrial[] = [];
  for (const finding of findings.pairs) trials[finding.pair] = trialOf(setup, finding);
  return trials;
}

function trialOf({ pairs, solids }: Setup, { pair, state, worst, provenMm }: PairFinding): PairTrial {
  const { a, b, moves, targetMm, targetOrigin, allowanceMm } = pairs[pair];
  return {
    a: solids[a].id,
    b: solids[b].id,
    labelA: solids[a].label,
    labelB: solids[b].label,
    moves,
    state,
    targetMm,
    targetOrigin,
    allowanceMm,
    worst: worst && {
      travelMm: worst.travelMm,
      steer: worst.steer,
      roadWheelAngleDeg: worst.roadWheelAngleDeg,
      clearanceMm: worst.clearanceMm,
      errorMm: worst.errorMm,
      marginMm: worst.marginMm,
      pointA: worst.pointA,
      pointB: worst.pointB,
    },
    leastMarginMm:
      worst === undefined
        ? state === 'far'
          ? Number.POSITIVE_INFINITY
          : Number.NaN
        : lowerEndMm(Math.min(worst.clearanceMm, provenMm ?? Number.POSITIVE_INFINITY), worst.errorMm) -
          targetMm -
          allowanceMm,
  };
}
