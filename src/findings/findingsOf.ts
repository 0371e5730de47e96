import { CLEARANCE_KINDS } from '../clearance/clearance.ts';
import { lowerEndMm } from '../clearance/reportedClearance.ts';
import type { Vec3 } from '../math/vec.ts';
import type { PairAtPose, Proof, ProvedPair } from '../proof/prove.ts';
import type { MeasuredLimit } from '../sweep/limit.ts';
import { POSE_STATES, type SweepResult } from '../sweep/result.ts';
import type { Findings, PairFinding, PairState, TightSpot } from './findings.ts';
import { bindingSteps, limitFindings } from './limitFindings.ts';

const SOLVED = POSE_STATES.indexOf('solved');
const UNREACHABLE = POSE_STATES.indexOf('unreachable');
const PENDING = CLEARANCE_KINDS.indexOf('pending');
const UNKNOWN = CLEARANCE_KINDS.indexOf('unknown');

/**
 * State of one measured clearance. Both bounds are on the safe side: a pair touches if the error cannot exclude
 * contact, and is tight if the error could use up the margin.
 */
export function stateOf(clearanceMm: number, errorMm: number, marginMm: number): PairState {
  if (Number.isNaN(clearanceMm)) return 'unknown';
  if (clearanceMm === Number.POSITIVE_INFINITY) return 'far';
  if (clearanceMm - errorMm <= 0) return 'touches';
  return marginMm - errorMm < 0 ? 'tight' : 'clear';
}

/** A pair at one step of a sweep. */
function atStep(result: SweepResult, pair: number, step: number): PairAtPose {
  const { travelMm, steer, roadWheelAngleDeg, carriers, clearanceMm, errorMm, points } = result;
  const at = pair * result.poseState.length + step;
  const numbers = carriers.length / result.poseState.length;
  const point = (i: number): Vec3 => [points[i], points[i + 1], points[i + 2]];
  return {
    travelMm: travelMm[Math.floor(step / steer.length)],
    steer: steer[step % steer.length],
    roadWheelAngleDeg: roadWheelAngleDeg[step],
    carriers: carriers.subarray(step * numbers, (step + 1) * numbers),
    clearanceMm: clearanceMm[at],
    errorMm: errorMm[at],
    pointA: point(at * 6),
    pointB: point(at * 6 + 3),
  };
}

/**
 * The worst of a pair's steps, and counts of measured and unknown steps; `worst` is undefined if no step is measured.
 */
function worstOfSteps(result: SweepResult, pair: number) {
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
    // The lower end of the error bar decides, so that an inaccurate value does not hide behind an accurate one.
    const clearanceMm = result.clearanceMm[at];
    const lowest =
      clearanceMm === Number.POSITIVE_INFINITY ? clearanceMm : lowerEndMm(clearanceMm, result.errorMm[at]);
    if (lowest < worstMm) {
      worstMm = lowest;
      worstStep = step;
    }
  }
  return { unknownSteps, measured, worst: worstStep < 0 ? undefined : atStep(result, pair, worstStep) };
}

function findPair(result: SweepResult, pair: number, proved: ProvedPair | undefined): PairFinding {
  const { targetMm, allowanceMm } = result.pairs[pair];
  const { unknownSteps, measured, worst: worstStep } = worstOfSteps(result, pair);
  const found = proved?.between ?? worstStep;
  const provenMm = proved !== undefined && Number.isFinite(proved.lowerMm) ? proved.lowerMm : undefined;
  const proofFailed = proved !== undefined && proved.lowerMm === Number.NEGATIVE_INFINITY;
  if (found === undefined) {
    const far = measured > 0 && unknownSteps === 0 && !proofFailed;
    return { pair, state: far ? 'far' : 'unknown', worst: undefined, provenMm, unknownSteps };
  }
  const marginOf = (clearanceMm: number) => clearanceMm - targetMm - allowanceMm;
  const worst: TightSpot = { ...found, marginMm: marginOf(found.clearanceMm) };
  const leastMm = Math.min(found.clearanceMm, provenMm ?? Number.POSITIVE_INFINITY);
  const state = stateOf(leastMm, found.errorMm, marginOf(leastMm));
  // An unknown clearance, at a step or between steps, may be worse than the worst found. Only contact remains
  // certain.
  const isPartlyUnknown = unknownSteps > 0 || proofFailed;
  return {
    pair,
    state: isPartlyUnknown && state !== 'touches' ? 'unknown' : state,
    worst,
    provenMm,
    unknownSteps,
  };
}

/** Rank in the list: pairs that need action first. Unknown pairs come after touching ones and before all others. */
const rank = (finding: PairFinding): number =>
  finding.state === 'touches' ? 0 : finding.state === 'unknown' ? 1 : finding.state === 'far' ? 3 : 2;

/** Smallest margin over the given pairs at each step; NaN if unreachable, pending or unknown, +Infinity if far. */
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

/**
 * The findings of a sweep: each pair's worst case and state, sorted, and the verdict over all. With a proof, worst
 * cases and states also hold between the steps, and a corner whose mechanism locks out is never clear. `limits`: of
 * joints and dampers at the same steps (`limitsOf`); undefined while they are not computed.
 */
export function findingsOf(
  result: SweepResult,
  limits: readonly MeasuredLimit[] | undefined,
  proof?: Proof,
): Findings {
  const pairs = result.pairs.map((_, pair) => findPair(result, pair, proof?.pairs[pair]));
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
  const found = limitFindings(limits ?? []);
  const limitCounts = { binds: 0, unknown: 0, clear: 0 };
  for (const { state } of found) limitCounts[state] += 1;
  const verdict =
    pending || limits === undefined
      ? 'incomplete'
      : counts.touches > 0 || limitCounts.binds > 0
        ? 'touches'
        : counts.unknown > 0 ||
            limitCounts.unknown > 0 ||
            unreachableSteps.length > 0 ||
            (proof?.lockedOut.length ?? 0) > 0
          ? 'unknown'
          : counts.tight > 0
            ? 'tight'
            : 'clear';
  return {
    verdict,
    counts,
    pairs,
    limits: found,
    limitCounts,
    bindingSteps: bindingSteps(limits ?? [], result.poseState.length),
    unchecked: result.unchecked,
    unreachableSteps,
    solvedSteps,
    lockedOut: proof?.lockedOut,
    worstMarginMm: worstMargins(
      result,
      result.pairs.map((_, pair) => pair),
    ),
  };
}
