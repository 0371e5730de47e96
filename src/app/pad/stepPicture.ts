import type { PairState } from '../../findings/findings.ts';
import { stateOf, worstMargins } from '../../findings/findingsOf.ts';
import { POSE_STATES, type SweepResult } from '../../sweep/result.ts';

export type StepState = PairState | 'pending' | 'unreachable';

/** What a map shows of each step, over the pairs asked for. */
export interface StepPicture {
  states: readonly StepState[];
  /** Worst margin; NaN where it cannot be told, +Infinity where all are far. */
  marginMm: Float64Array;
}

/** The graver of two states of one step stands for both. */
const GRAVITY: readonly PairState[] = ['far', 'clear', 'tight', 'unknown', 'touches'];

const PENDING = POSE_STATES.indexOf('pending');
const UNREACHABLE = POSE_STATES.indexOf('unreachable');

/** The picture of a sweep, finished or not, over the given pairs. */
export function stepPicture(result: SweepResult, pairs: readonly number[]): StepPicture {
  const steps = result.poseState.length;
  const states = Array.from({ length: steps }, (_, step): StepState => {
    if (result.poseState[step] === PENDING) return 'pending';
    if (result.poseState[step] === UNREACHABLE) return 'unreachable';
    let gravest = 0;
    for (const pair of pairs) {
      const at = pair * steps + step;
      const { targetMm, allowanceMm } = result.pairs[pair];
      const clearanceMm = result.clearanceMm[at];
      const state = stateOf(clearanceMm, result.errorMm[at], clearanceMm - targetMm - allowanceMm);
      gravest = Math.max(gravest, GRAVITY.indexOf(state));
    }
    return GRAVITY[gravest];
  });
  return { states, marginMm: worstMargins(result, pairs) };
}
