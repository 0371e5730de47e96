import { CLEARANCE_KINDS } from '../clearance/clearance.ts';
import { lowerEndMm } from '../clearance/reportedClearance.ts';
import type { Vec3 } from '../math/vec.ts';
import type { MeasuredLimit } from '../sweep/limit.ts';
import type { PairAtPose, Proof, ProvedPair } from '../sweep/prove.ts';
import { POSE_STATES, type SweepResult } from '../sweep/result.ts';
import { CARRIER_NUMBERS } from '../sweep/row.ts';
import type { Findings, PairFinding, PairState, TightSpot } from './findings.ts';
import { bindingSteps, limitFindings } from './limitFindings.ts';

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

/** A pair as a sweep has it at a step. */
function atStep(result: SweepResult, pair: number, step: number): PairAtPose {
  const { travelMm, steer, roadWheelAngleDeg, carriers, clearanceMm, errorMm, points } = result;
  const at = pair * result.poseState.length + step;
  const point = (i: number): Vec3 => [points[i], points[i + 1], points[i + 2]];
  return {
    travelMm: travelMm[Math.floor(step / steer.length)],
    steer: steer[step % steer.length],
    roadWheelAngleDeg: roadWheelAngleDeg[step],
    carriers: carriers.subarray(step * CARRIER_NUMBERS, (step + 1) * CARRIER_NUMBERS),
    clearanceMm: clearanceMm[at],
    errorMm: errorMm[at],
    pointA: point(at * 6),
    pointB: point(at * 6 + 3),
  };
}

/** The worst of a pair's steps; undefined where it is measured at none. */
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
    // The lower end of the error bar decides, so that a coarse number cannot hide behind a fine one.
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
  const { unknownSteps, measured, worst: ofSteps } = worstOfSteps(result, pair);
  const found = proved?.between ?? ofSteps;
  const provenMm = proved !== undefined && Number.isFinite(proved.lowerMm) ? proved.lowerMm : undefined;
  const nothingProven = proved !== undefined && proved.lowerMm === Number.NEGATIVE_INFINITY;
  if (found === undefined) {
    const far = measured > 0 && unknownSteps === 0 && !nothingProven;
    return { pair, state: far ? 'far' : 'unknown', worst: undefined, provenMm, unknownSteps };
  }
  const marginOf = (clearanceMm: number) => clearanceMm - targetMm - allowanceMm;
  const worst: TightSpot = { ...found, marginMm: marginOf(found.clearanceMm) };
  const leastMm = Math.min(found.clearanceMm, provenMm ?? Number.POSITIVE_INFINITY);
  const state = stateOf(leastMm, found.errorMm, marginOf(leastMm));
  // What could not be told, at some steps or between them, may be worse than what was found; a contact stays found.
  const untold = unknownSteps > 0 || nothingProven;
  return { pair, state: untold && state !== 'touches' ? 'unknown' : state, worst, provenMm, unknownSteps };
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

/**
 * What a sweep says: each pair's worst case and state, sorted, and the verdict over all. With a proof of what lies between
 * its steps the worst case and the states hold there too; a corner of which the mechanism locks out is not called clear.
 * `limits`: those of its joints and dampers at the same steps (`limitsOf`); undefined while they are not computed.
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
