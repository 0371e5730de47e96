import type { Effect, PairSensitivity } from '../sensitivity/sensitivity.ts';
import type { Verified } from './adverseCorner.ts';
import { type ErrorTerm, rootSumSquare, worstCaseSum } from './errorTerms.ts';

/** The measuring error of one pair that is not far. */
export interface PairError extends Pick<PairSensitivity, 'finding' | 'worst'> {
  /** One for each value that has a ± and changes the pair, the largest loss first. */
  terms: readonly ErrorTerm[];
  /** The worst case through the slopes, and the part of it that is the error of the slopes, mm. */
  linear: { worstMm: number; slopeErrorMm: number };
  rssMm: number;
  /** Undefined if no value with a ± changes the pair. */
  verified: Verified | undefined;
  /** Loss of clearance in the verified corner, mm; undefined if it is not measured there. */
  verifiedLossMm: number | undefined;
  /** The worst case that counts, mm; undefined if it is not known. */
  worstCaseMm: number | undefined;
  /** Least margin at every pose of the corner as typed, all errors taken off, mm. */
  leastMarginMm: number;
  /** Whether the pair is clear as typed, but its margin is less than the worst case; undefined if that is not known. */
  isWithin: boolean | undefined;
  /** Effects of assumed values, which have no ±; the largest slope first. */
  assumed: readonly Effect[];
  /** Number of values that change the pair, are given, and have no ±: they count as exact. */
  exactCount: number;
}

/** A verified loss that differs from the linear one by more than this share of it counts in place of it. */
const MOST_DIFFERENCE = 0.1;

/** The figures of a pair from its terms and the verified corner. `leastMarginMm`: see `PairError`. */
export function pairError(
  { finding, worst, effects }: PairSensitivity,
  terms: readonly ErrorTerm[],
  verified: Verified | undefined,
  leastMarginMm: number,
): PairError {
  const losses = terms.map(({ lossMm }) => lossMm);
  const slopeErrorMm = worstCaseSum(terms.map((term) => term.slopeErrorMm));
  const linear = { worstMm: worstCaseSum(losses) + slopeErrorMm, slopeErrorMm };
  const verifiedLossMm =
    verified?.kind === 'measured' ? worst.clearanceMm - verified.worst.clearanceMm : undefined;
  const worstCaseMm = worstCaseOf(terms, linear.worstMm, verifiedLossMm);
  const isClear = finding.state === 'clear';
  const mayMiss =
    leastMarginMm < (worstCaseMm ?? linear.worstMm) ||
    (verified?.kind === 'measured' && verified.state !== 'clear');
  const assumed = effects.filter(({ value: { input } }) => input.assumed && input.plusMinus === undefined);
  return {
    finding,
    worst,
    terms,
    linear,
    rssMm: rootSumSquare(losses),
    verified,
    verifiedLossMm,
    worstCaseMm,
    leastMarginMm,
    isWithin: isClear && !mayMiss && worstCaseMm === undefined ? undefined : isClear && mayMiss,
    assumed,
    exactCount: effects.length - terms.length - assumed.length,
  };
}

/**
 * The worst case that counts, mm: that of the verified corner if it differs from the linear one by more than
 * `MOST_DIFFERENCE` or if a slope is not measured, else the larger one. Undefined if neither is known.
 */
function worstCaseOf(
  terms: readonly ErrorTerm[],
  linearMm: number,
  verifiedMm: number | undefined,
): number | undefined {
  const isMeasured = terms.every((term) => term.isMeasured);
  const hasEnds = terms.every((term) => term.isMeasured || term.end !== 0);
  if (verifiedMm !== undefined && hasEnds) {
    const differs = Math.abs(verifiedMm - linearMm) > MOST_DIFFERENCE * Math.abs(verifiedMm);
    return differs || !isMeasured ? Math.max(0, verifiedMm) : Math.max(linearMm, verifiedMm);
  }
  return isMeasured ? linearMm : undefined;
}
