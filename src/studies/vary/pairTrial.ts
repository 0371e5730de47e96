import { lowerEndMm } from '../../clearance/reportedClearance.ts';
import type { Findings, PairFinding, PairState } from '../../findings/findings.ts';
import type { Vec3 } from '../../math/vec.ts';
import type { Setup } from '../../sweep/setUp.ts';

/** The worst case of a pair: a tight spot without the carriers of its pose. */
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

/** The result of one pair in one variant of a corner. */
export interface PairTrial {
  /** Ids and labels of the two solids. */
  a: string;
  b: string;
  labelA: string;
  labelB: string;
  moves: boolean;
  state: PairState;
  targetMm: number;
  targetOrigin: string;
  allowanceMm: number;
  /** Undefined for far pairs and for pairs without any measurement. */
  worst: TrialSpot | undefined;
  /**
   * Smallest margin over target and allowances at all poses, less all errors; negative for a shortfall. Infinity for
   * a far pair; NaN if unknown. For a touching pair it is the depth of the deepest point found, which is neither the
   * largest depth between steps nor the distance to move a part.
   */
  leastMarginMm: number;
}

/** Whether a pair keeps its target at all poses, with all errors. */
export const pairFits = ({ state }: PairTrial): boolean => state === 'clear' || state === 'far';

/** Whether a pair is known to miss its target; an unknown pair neither fits nor fails. */
export const pairFails = ({ state }: PairTrial): boolean => state === 'touches' || state === 'tight';

/** The results of a corner's pairs, in the order of the pairs. */
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
