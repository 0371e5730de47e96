import { lowerEndMm } from '../../clearance/reportedClearance.ts';
import type { PairState } from '../../findings/findings.ts';
import { stateOf, worstMargins } from '../../findings/findingsOf.ts';
import { POSE_STATES, type SweepResult } from '../../sweep/result.ts';

export type StepState = PairState | 'binds' | 'pending' | 'unreachable';

/** State and margin of each step over the given pairs, for a map. */
export interface StepPicture {
  states: readonly StepState[];
  /** Worst margin; NaN if unknown, +Infinity if all pairs are far. */
  marginMm: Float64Array;
  /** Least clearance less its error; contact if not above zero. NaN and +Infinity as for the margin. */
  leastMm: Float64Array;
  /** 1 if a depth has no upper bound; `marginMm` is then an upper bound. */
  isUnbounded: Uint8Array;
}

/** States by severity; a step gets the most severe state of its pairs. */
const BY_SEVERITY = ['far', 'clear', 'tight', 'unknown', 'binds', 'touches'] as const;
const SEVERITY = { far: 0, clear: 1, tight: 2, unknown: 3, binds: 4, touches: 5 } as const;

const PENDING = POSE_STATES.indexOf('pending');
const SOLVED = POSE_STATES.indexOf('solved');

/** State and margin of each step of a finished or running sweep; `bindingSteps`: 1 where a joint or damper binds. */
export function stepPicture(
  result: SweepResult,
  pairs: readonly number[],
  bindingSteps?: Uint8Array,
): StepPicture {
  const steps = result.poseState.length;
  const worstSeverity = new Uint8Array(steps);
  const isUnbounded = new Uint8Array(steps);
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
      // Math.min propagates NaN: if one pair is unknown, the minimum is unknown.
      leastMm[step] = Math.min(leastMm[step], lowerEndMm(clearanceMm, result.errorMm[at] || 0));
      worstSeverity[step] = Math.max(worstSeverity[step], SEVERITY[state]);
      if (result.errorMm[at] === Number.POSITIVE_INFINITY) isUnbounded[step] = 1;
    }
  }
  bindingSteps?.forEach((binds, step) => {
    if (binds === 1) worstSeverity[step] = Math.max(worstSeverity[step], SEVERITY.binds);
  });
  const states = Array.from(worstSeverity, (severity, step): StepState => {
    if (result.poseState[step] === PENDING) return 'pending';
    return result.poseState[step] === SOLVED ? BY_SEVERITY[severity] : 'unreachable';
  });
  return { states, marginMm: worstMargins(result, pairs), leastMm, isUnbounded };
}
