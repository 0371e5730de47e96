import type { Place } from '../../proof/proveBetween.ts';
import { POSE_STATES, type SweepResult } from '../../sweep/result.ts';

/** Poses whose clearance is larger than the worst by more than this do not become the worst within a step, mm. */
const SWITCH_MM = 6;

/** Largest number of poses for a pair. */
const MOST_POSES = 12;

const SOLVED = POSE_STATES.indexOf('solved');

/**
 * The poses at which a pair may be at its worst after a small change: its worst pose, first, and every step of the sweep
 * that is no worse than its neighbours and at most `SWITCH_MM` better than the worst, the smallest clearance first.
 */
export function nearPoses(
  result: SweepResult,
  pair: number,
  worst: Place & { clearanceMm: number },
): Place[] {
  const { travelMm, steer, poseState, clearanceMm } = result;
  const steps = poseState.length;
  const at = (t: number, s: number): number =>
    t < 0 || t >= travelMm.length || s < 0 || s >= steer.length || poseState[t * steer.length + s] !== SOLVED
      ? Number.POSITIVE_INFINITY
      : clearanceMm[pair * steps + t * steer.length + s];
  const found: (Place & { clearance: number })[] = [];
  for (let t = 0; t < travelMm.length; t++) {
    for (let s = 0; s < steer.length; s++) {
      const clearance = at(t, s);
      if (!(clearance <= worst.clearanceMm + SWITCH_MM)) continue;
      const around = [-1, 0, 1].flatMap((dt) => [-1, 0, 1].map((ds) => at(t + dt, s + ds)));
      if (around.some((other) => other < clearance)) continue;
      if (travelMm[t] === worst.travelMm && steer[s] === worst.steer) continue;
      found.push({ travelMm: travelMm[t], steer: steer[s], clearance });
    }
  }
  found.sort((one, other) => one.clearance - other.clearance);
  const others = found.slice(0, MOST_POSES - 1).map(({ travelMm: travel, steer: lock }) => ({
    travelMm: travel,
    steer: lock,
  }));
  return [{ travelMm: worst.travelMm, steer: worst.steer }, ...others];
}
