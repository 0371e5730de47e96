/** What is left at each step of a sweep up to each thing that can end travel or lock. */
import { lowerEndMm } from '../../clearance/reportedClearance.ts';
import type { Findings } from '../../findings/findings.ts';
import { type LimitFinding, leftAt } from '../../findings/limitFindings.ts';
import { POSE_STATES, type SweepResult } from '../../sweep/result.ts';

/** What can end travel or lock: a pair (its index), a limit, or poses that are not reached. */
export type Bound =
  | { kind: 'pair'; pair: number }
  | { kind: 'limit'; limit: LimitFinding }
  | { kind: 'lockOut' };

/** A bound with what is left up to it at each step: mm or degrees, below 0 beyond it. */
export interface Headroom {
  bound: Bound;
  /** At a step where it is unknown: below 0. */
  left: Float64Array;
}

/** Left where nothing is known, and where a pose is not reached. */
const UNKNOWN = -1;
const SOLVED = POSE_STATES.indexOf('solved');

/**
 * The headroom of the pairs and limits that fail somewhere, and of poses that are not reached. Pairs that do not move are
 * left out: they are the same at every pose. What is clear over all travel and lock is clear over any part of them, and is
 * left out too; so is a limit without an allowed value. `fails`: whether a pair fails the goal.
 */
export function headroomOf(
  result: SweepResult,
  { pairs, limits, lockedOut }: Findings,
  fails: (finding: Findings['pairs'][number]) => boolean,
): Headroom[] {
  const steps = result.poseState.length;
  const ofPairs = pairs
    .filter((finding) => result.pairs[finding.pair].moves && fails(finding))
    .map(({ pair }): Headroom => {
      const { targetMm, allowanceMm } = result.pairs[pair];
      const left = (_: unknown, step: number): number => {
        const clearanceMm = result.clearanceMm[pair * steps + step];
        if (Number.isNaN(clearanceMm)) return UNKNOWN;
        if (clearanceMm === Number.POSITIVE_INFINITY) return result.settings.limitMm - targetMm - allowanceMm;
        return lowerEndMm(clearanceMm, result.errorMm[pair * steps + step]) - targetMm - allowanceMm;
      };
      return { bound: { kind: 'pair', pair }, left: Float64Array.from({ length: steps }, left) };
    });
  const ofLimits = limits.flatMap((limit): Headroom[] => {
    const { allowed, state, usedAtSteps } = limit;
    if (state === 'clear' || allowed === undefined) return [];
    const left = (used: number) => (Number.isNaN(used) ? UNKNOWN : leftAt(limit, used, allowed));
    return [{ bound: { kind: 'limit', limit }, left: usedAtSteps.map(left) }];
  });
  const isReached = (state: number) => state === SOLVED;
  const reached: Headroom[] =
    result.poseState.every(isReached) && (lockedOut?.length ?? 0) === 0
      ? []
      : [
          {
            bound: { kind: 'lockOut' },
            left: Float64Array.from(result.poseState, (state) => (isReached(state) ? 1 : UNKNOWN)),
          },
        ];
  return [...ofPairs, ...ofLimits, ...reached];
}

/** The least headroom at each step; Infinity if nothing fails anywhere. */
export const leastHeadroom = (all: readonly Headroom[], steps: number): Float64Array =>
  Float64Array.from({ length: steps }, (_, step) => Math.min(...all.map(({ left }) => left[step])));
