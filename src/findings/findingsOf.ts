import { CLEARANCE_KINDS } from '../clearance/clearance.ts';
import type { Vec3 } from '../math/vec.ts';
import { POSE_STATES, type SweepResult } from '../sweep/result.ts';
import type { Findings, PairFinding, PairState, TightSpot } from './findings.ts';

const SOLVED = POSE_STATES.indexOf('solved');
const UNREACHABLE = POSE_STATES.indexOf('unreachable');
const PENDING = CLEARANCE_KINDS.indexOf('pending');
const UNKNOWN = CLEARANCE_KINDS.indexOf('unknown');

/**
 * State of one measured clearance. Both bounds lean to the safe side: contact that the error cannot exclude counts as
 * touching, a margin that the error could use up counts as tight.
 */
export function stateOf(clearanceMm: number, errorMm: number, marginMm: number): PairState {
  if (Number.isNaN(clearanceMm)) return 'unknown';
  if (clearanceMm === Number.POSITIVE_INFINITY) return 'far';
  if (clearanceMm - errorMm <= 0) return 'touches';
  return marginMm - errorMm < 0 ? 'tight' : 'clear';
}

function pointAt(result: SweepResult, at: number, first: 0 | 3): Vec3 {
  const i = at * 6 + first;
  return [result.points[i], result.points[i + 1], result.points[i + 2]];
}

function findPair(result: SweepResult, pair: number): PairFinding {
  const { targetMm, allowanceMm } = result.pairs[pair];
  const steps = result.poseState.length;
  let unknownSteps = 0;
  let measured = 0;
  let worstStep = -1;
  let worstMm = Number.POSITIVE_INFINITY;
  for (let step = 0; step < steps; step++) {
    if (result.poseState[step] !== SOLVED) continue;
    const at = pair * steps + step;
    if (result.state[at] === UNKNOWN) unknownSteps += 1;
    if (result.state[at] === UNKNOWN || result.state[at] === PENDING) continue;
    measured += 1;
    // The lower end of the error bar decides, so that a coarse number cannot hide behind a fine one.
    const lowest =
      result.clearanceMm[at] - (result.clearanceMm[at] === Number.POSITIVE_INFINITY ? 0 : result.errorMm[at]);
    if (lowest < worstMm) {
      worstMm = lowest;
      worstStep = step;
    }
  }
  if (worstStep < 0)
    return {
      pair,
      state: measured > 0 && unknownSteps === 0 ? 'far' : 'unknown',
      worst: undefined,
      unknownSteps,
    };
  const at = pair * steps + worstStep;
  const clearanceMm = result.clearanceMm[at];
  const errorMm = result.errorMm[at];
  const marginMm = clearanceMm - targetMm - allowanceMm;
  const worst: TightSpot = {
    step: worstStep,
    travelMm: result.travelMm[Math.floor(worstStep / result.steer.length)],
    steer: result.steer[worstStep % result.steer.length],
    roadWheelAngleDeg: result.roadWheelAngleDeg[worstStep],
    clearanceMm,
    errorMm,
    marginMm,
    pointA: pointAt(result, at, 0),
    pointB: pointAt(result, at, 3),
  };
  const state = stateOf(clearanceMm, errorMm, marginMm);
  // What could not be told at some steps may be worse than what was found; a contact found stays found.
  return { pair, state: unknownSteps > 0 && state !== 'touches' ? 'unknown' : state, worst, unknownSteps };
}

/** Order of the list: what must be acted on first. Unknown stands before all that is measured but touching. */
const rank = (finding: PairFinding): number =>
  finding.state === 'touches' ? 0 : finding.state === 'unknown' ? 1 : finding.state === 'far' ? 3 : 2;

/** Worst margin over the given pairs at each step; NaN where unreachable, pending or unknown, +Infinity where far. */
export function worstMargins(result: SweepResult, pairs: readonly number[]): Float64Array {
  const steps = result.poseState.length;
  return Float64Array.from({ length: steps }, (_, step) => {
    if (result.poseState[step] !== SOLVED) return Number.NaN;
    let worst = Number.POSITIVE_INFINITY;
    for (const pair of pairs) {
      const { targetMm, allowanceMm } = result.pairs[pair];
      const clearanceMm = result.clearanceMm[pair * steps + step];
      if (Number.isNaN(clearanceMm)) return Number.NaN;
      worst = Math.min(worst, clearanceMm - targetMm - allowanceMm);
    }
    return worst;
  });
}

/** What a sweep says: each pair's worst case and state, sorted, and the verdict over all. */
export function findingsOf(result: SweepResult): Findings {
  const pairs = result.pairs.map((_, pair) => findPair(result, pair));
  pairs.sort(
    (a, b) => rank(a) - rank(b) || (a.worst?.marginMm ?? 0) - (b.worst?.marginMm ?? 0) || a.pair - b.pair,
  );
  const counts: Record<PairState, number> = { touches: 0, tight: 0, clear: 0, far: 0, unknown: 0 };
  for (const { state } of pairs) counts[state] += 1;
  const unreachableSteps: number[] = [];
  let solvedSteps = 0;
  let pending = false;
  result.poseState.forEach((state, step) => {
    if (state === UNREACHABLE) unreachableSteps.push(step);
    else if (state === SOLVED) solvedSteps += 1;
    else pending = true;
  });
  const verdict = pending
    ? 'incomplete'
    : counts.touches > 0
      ? 'touches'
      : counts.unknown > 0 || unreachableSteps.length > 0
        ? 'unknown'
        : counts.tight > 0
          ? 'tight'
          : 'clear';
  return {
    verdict,
    counts,
    pairs,
    unchecked: result.unchecked,
    unreachableSteps,
    solvedSteps,
    worstMarginMm: worstMargins(
      result,
      result.pairs.map((_, pair) => pair),
    ),
  };
}
