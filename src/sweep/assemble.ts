import type { SweepResult } from './result.ts';
import { emptyRow, type Row } from './row.ts';
import type { Built } from './setUp.ts';

/** An empty sweep result: every step is pending. */
export function pendingResult(setup: Built): SweepResult {
  const { travelMm, steer, pairs, unchecked, settings, design, mechanism } = setup;
  return {
    designHash: design.hash,
    settings,
    travelMm: travelMm.slice(),
    steer: steer.slice(),
    pairs,
    unchecked,
    ...emptyRow(pairs.length, travelMm.length * steer.length, mechanism.carriers),
  };
}

/** Copies the row of one travel into the result. */
export function placeRow(result: SweepResult, travelIndex: number, row: Row): void {
  const steps = result.steer.length;
  const first = travelIndex * steps;
  const total = result.travelMm.length * steps;
  result.poseState.set(row.poseState, first);
  result.carriers.set(row.carriers, first * (row.carriers.length / steps));
  result.residualMm.set(row.residualMm, first);
  result.roadWheelAngleDeg.set(row.roadWheelAngleDeg, first);
  for (let p = 0; p < result.pairs.length; p++) {
    const from = p * steps;
    const to = p * total + first;
    result.state.set(row.state.subarray(from, from + steps), to);
    result.clearanceMm.set(row.clearanceMm.subarray(from, from + steps), to);
    result.errorMm.set(row.errorMm.subarray(from, from + steps), to);
    result.points.set(row.points.subarray(from * 6, (from + steps) * 6), to * 6);
  }
}
