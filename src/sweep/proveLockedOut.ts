import { type PoseCell, PoseCells } from './proveCells.ts';
import { POSE_STATES, type SweepResult } from './result.ts';
import type { Setup } from './setUp.ts';

/** A part of the rectangle of travel and steer in which nothing is proved: the mechanism locks out in it or near it. */
export interface LockedOut {
  travelMm: readonly [number, number];
  steer: readonly [number, number];
  /** True where no step on or in it is reached. */
  whole: boolean;
  /** Why its middle is not reached; undefined where it is. */
  reason: string | undefined;
}

/** Beside steps that are reached, the end of the range is closed in on to this share of a step. */
const SHARE_OF_STEP = 1 / 8;

/**
 * Cuts the rectangle into cells in which every carrier is enclosed, as large as they come, and those in which the
 * mechanism was not shown to run on: every pose of the rectangle that is not reached lies in one of the latter.
 */
export function cutOut(setup: Setup, result: SweepResult): { cells: PoseCell[]; lockedOut: LockedOut[] } {
  const { travelMm, steer } = setup;
  const stepMm = (travelMm[travelMm.length - 1] - travelMm[0]) / (travelMm.length - 1);
  const stepSteer = 2 / (steer.length - 1);
  const cells: PoseCell[] = [];
  const lockedOut: LockedOut[] = [];
  const waiting = new PoseCells(setup.mechanism, travelMm[0], travelMm[travelMm.length - 1]).whole();
  for (let cell = waiting.pop(); cell !== undefined; cell = waiting.pop()) {
    if (cell.carriers !== undefined) {
      cells.push(cell);
      continue;
    }
    const travelSteps = (2 * cell.travelHalfMm) / stepMm;
    const steerSteps = (2 * cell.steerHalf) / stepSteer;
    const reached = reachedNear(cell, result, stepMm, stepSteer);
    const halves =
      Math.max(travelSteps, steerSteps) > (reached ? SHARE_OF_STEP : 1)
        ? cell.halves(travelSteps >= steerSteps ? 'travel' : 'steer')
        : undefined;
    if (halves !== undefined) waiting.push(...halves);
    else lockedOut.push(told(cell, !reached));
  }
  return { cells, lockedOut: joined(lockedOut) };
}

/** Whether a step in a cell, or within one step of it, is reached. */
function reachedNear(cell: PoseCell, result: SweepResult, stepMm: number, stepSteer: number): boolean {
  const solved = POSE_STATES.indexOf('solved');
  const { travelMm, steer, poseState } = result;
  for (let t = 0; t < travelMm.length; t++) {
    if (Math.abs(travelMm[t] - cell.travelMm) > cell.travelHalfMm + stepMm) continue;
    for (let s = 0; s < steer.length; s++) {
      if (Math.abs(steer[s] - cell.steer) > cell.steerHalf + stepSteer) continue;
      if (poseState[t * steer.length + s] === solved) return true;
    }
  }
  return false;
}

const told = ({ travelMm, travelHalfMm, steer, steerHalf, pose }: PoseCell, whole: boolean): LockedOut => ({
  travelMm: [travelMm - travelHalfMm, travelMm + travelHalfMm],
  steer: [steer - steerHalf, steer + steerHalf],
  whole,
  reason: pose.kind === 'unreachable' ? pose.reason : undefined,
});

/** Joins boxes that stand side by side and say the same, first along steer, then along travel. */
function joined(boxes: LockedOut[]): LockedOut[] {
  const join = (list: LockedOut[], along: 'travelMm' | 'steer', across: 'travelMm' | 'steer') => {
    const sorted = [...list].sort(
      (a, b) => a[across][0] - b[across][0] || a[across][1] - b[across][1] || a[along][0] - b[along][0],
    );
    const out: LockedOut[] = [];
    for (const box of sorted) {
      const last = out[out.length - 1];
      const fits =
        last !== undefined &&
        last[across][0] === box[across][0] &&
        last[across][1] === box[across][1] &&
        last[along][1] === box[along][0] &&
        last.whole === box.whole &&
        last.reason === box.reason;
      if (fits) out[out.length - 1] = { ...last, [along]: [last[along][0], box[along][1]] };
      else out.push(box);
    }
    return out;
  };
  return join(join(boxes, 'steer', 'travelMm'), 'travelMm', 'steer');
}
