import { lowerEndMm } from '../../clearance/reportedClearance.ts';
import type { PairState } from '../../findings/findings.ts';
import { stateOf, worstMargins } from '../../findings/findingsOf.ts';
import { POSE_STATES, type SweepResult } from '../../sweep/result.ts';

export type StepState = PairState | 'binds' | 'pending' | 'unreachable';

/** What a map shows of each step, over the pairs asked for. */
export interface StepPicture {
  states: readonly StepState[];
  /** Worst margin; NaN where it cannot be told, +Infinity where all are far. */
  marginMm: Float64Array;
  /** Least clearance less its error: contact where not above zero. NaN and +Infinity as of the margin. */
  leastMm: Float64Array;
  /** 1 where a depth has no upper bound: `marginMm` is at most what it says. */
  isOpen: Uint8Array;
}

/** The graver of two states of one step stands for both. */
const BY_GRAVITY = ['far', 'clear', 'tight', 'unknown', 'binds', 'touches'] as const;
const GRAVITY = { far: 0, clear: 1, tight: 2, unknown: 3, binds: 4, touches: 5 } as const;

const PENDING = POSE_STATES.indexOf('pending');
const SOLVED = POSE_STATES.indexOf('solved');

/** The picture of a sweep, finished or not, over the given pairs; `bindingSteps`: 1 where a joint or damper binds. */
export function stepPicture(
  result: SweepResult,
  pairs: readonly number[],
  bindingSteps?: Uint8Array,
): StepPicture {
  const steps = result.poseState.length;
  const gravest = new Uint8Array(steps);
  const isOpen = new Uint8Array(steps);
  const leastMm = Float64Array.from(result.poseState, (pose) =>
    pose === SOLVED ? Number.POSITIVE_INFINITY : Number.NaN,
  );
  for (const pair of pairs) {
    const { targetMm, allowanceMm } = result.pairs[pair];
    for (let step = 0; step < steps; step++) {
      if (result.poseState[step] !== SOLVED) continue;
      const at = pair * steps + step;
      const clearanceMm = result.clearanceMm[at];
      const state = stateOf(clearanceMm, result.errorMm[at], clearanceMm - targetMm - allowanceMm);
      // Math.min hands NaN on: what cannot be told of one pair cannot be told of all.
      leastMm[step] = Math.min(leastMm[step], lowerEndMm(clearanceMm, result.errorMm[at] || 0));
      gravest[step] = Math.max(gravest[step], GRAVITY[state]);
      if (result.errorMm[at] === Number.POSITIVE_INFINITY) isOpen[step] = 1;
    }
  }
  bindingSteps?.forEach((binds, step) => {
    if (binds === 1) gravest[step] = Math.max(gravest[step], GRAVITY.binds);
  });
  const states = Array.from(gravest, (gravity, step): StepState => {
    if (result.poseState[step] === PENDING) return 'pending';
    return result.poseState[step] === SOLVED ? BY_GRAVITY[gravity] : 'unreachable';
  });
  return { states, marginMm: worstMargins(result, pairs), leastMm, isOpen };
}
