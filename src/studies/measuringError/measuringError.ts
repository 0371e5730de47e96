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
 * slopes add up. Otherwise the larger one counts.
 */
import { yieldToOthers } from '../../executors/yieldToOthers.ts';
import { SetupMemory } from '../../sweep/setUp.ts';
import type { Sensitivity } from '../sensitivity/sensitivity.ts';
import { type SweepAndProve, sweepAndProveHere } from '../vary/measurePairs.ts';
import { pairTrials } from '../vary/pairTrial.ts';
import { measureAdverse } from './adverseCorner.ts';
import { errorTerms } from './errorTerms.ts';
import { type MeasureAgain, measureAgain } from './measureAgain.ts';
import { type PairError, pairError } from './pairError.ts';

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
