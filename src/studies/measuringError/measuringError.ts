/**
 * How much less each clearance can be if the measured values of the file are off by their ±.
 *
 * Three figures, which are never added to each other:
 * - mesh error: the error of the clearance of the corner as typed, from its meshes and its proof;
 * - worst case: every value is at the end of its ± that takes from the clearance;
 * - root sum square: the usual estimate for errors that are independent of each other (JCGM 100:2008, 5.1.2).
 *
 * The linear worst case is the sum of |slope| times ± (Dimensioning and Tolerancing Handbook, chapter 9), with the slope of
 * the adverse side. So that it is not too small, the error of each slope is added to the slope; nothing else of the mesh
 * error is in it. The root sum square uses the slopes without their errors.
 *
 * Then the corner is built with every value at its adverse end, and the pair is swept and proved. If that loss differs from
 * the linear one by more than a tenth, it is the one that counts: slopes hold near a value only, and the errors of many
 * slopes add up.
 */
import { yieldToOthers } from '../../executors/yieldToOthers.ts';
import { SetupMemory } from '../../sweep/setUp.ts';
import type { Effect, PairSensitivity, Sensitivity } from '../sensitivity/sensitivity.ts';
import { type SweepAndProve, sweepAndProveHere } from '../vary/measurePairs.ts';
import { pairTrials } from '../vary/pairTrial.ts';
import { measureAdverse, type Verified } from './adverseCorner.ts';
import { type ErrorTerm, errorTerms, rootSumSquare, worstCaseSum } from './errorTerms.ts';
import { type MeasureAgain, measureAgain } from './measureAgain.ts';

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

export interface MeasuringError {
  sensitivity: Sensitivity;
  /** In the order of the findings: the least margin first. */
  pairs: readonly PairError[];
  /** See `measureAgain`. */
  again: { totalMm: number; values: readonly MeasureAgain[] };
}

export interface MeasuringErrorOptions {
  /** By default, in the calling thread. */
  measure?: SweepAndProve;
  /** Cancels the study, which then rejects with the signal's reason. */
  signal?: AbortSignal;
  /** Number of pairs done and of all pairs. */
  onProgress?: (done: number, total: number) => void;
}

/** A verified loss that differs from the linear one by more than this share of it counts in place of it. */
const MOST_DIFFERENCE = 0.1;

/** The measuring error of every pair of a sensitivity study. Rejects with the signal's reason when cancelled. */
export async function measuringErrorOf(
  sensitivity: Sensitivity,
  { measure = sweepAndProveHere, signal, onProgress }: MeasuringErrorOptions = {},
): Promise<MeasuringError> {
  const memory = new SetupMemory();
  const trials = pairTrials(sensitivity.setup, sensitivity.findings);
  const pairs: PairError[] = [];
  for (const pair of sensitivity.pairs) {
    signal?.throwIfAborted();
    const terms = errorTerms(pair.effects);
    const verified = terms.some(({ end }) => end !== 0)
      ? await measureAdverse(sensitivity, pair.finding.pair, terms, memory, measure, signal)
      : undefined;
    pairs.push(pairError(pair, terms, verified, trials[pair.finding.pair].leastMarginMm));
    onProgress?.(pairs.length, sensitivity.pairs.length);
    await yieldToOthers();
  }
  return { sensitivity, pairs, again: measureAgain(pairs) };
}

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
  const assumed = effects.filter(({ value }) => value.input.assumed);
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

function worstCaseOf(
  terms: readonly ErrorTerm[],
  linearMm: number,
  verifiedMm: number | undefined,
): number | undefined {
  const isMeasured = terms.every((term) => term.isMeasured);
  const hasEnds = terms.every((term) => term.isMeasured || term.end !== 0);
  if (verifiedMm !== undefined && hasEnds) {
    const differs = Math.abs(verifiedMm - linearMm) > MOST_DIFFERENCE * Math.abs(verifiedMm);
    return differs || !isMeasured ? Math.max(0, verifiedMm) : linearMm;
  }
  return isMeasured ? linearMm : undefined;
}
