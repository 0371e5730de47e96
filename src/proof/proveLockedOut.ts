import type { Mechanism } from '../mechanism/mechanism.ts';
import { solvePose } from '../mechanism/solvePose.ts';
import { POSE_STATES, type SweepResult } from '../sweep/result.ts';
import type { Setup } from '../sweep/setUp.ts';
import { type PoseCell, PoseCells } from './proveCells.ts';
import { reachedCells } from './proveReached.ts';

/** The mechanism and steps of a sweep, and which of the steps are reached. */
type CutSetup = Pick<Setup, 'mechanism' | 'travelMm' | 'steer'>;
type CutSteps = Pick<SweepResult, 'travelMm' | 'steer' | 'poseState'>;

/** A part of the rectangle of travel and steer without a proof, because the mechanism locks out in or near it. */
export interface LockedOut {
  travelMm: readonly [number, number];
  steer: readonly [number, number];
  /** True if no step on or in it is reached. */
  whole: boolean;
  /** Reason why its middle is not reached; undefined if it is. */
  reason: string | undefined;
}

/**
 * Next to reached steps, cells at the end of the range are halved down to this share of a step and of the rectangle.
 */
const SHARE_OF_STEP = 1 / 8;
const SHARE_OF_ALL = 1 / 64;
/** Where no step is reached, cells are halved down to one step and this share of the rectangle. */
const SHARE_OF_ALL_UNREACHED = 1 / 16;

/**
 * Divides the rectangle into cells in which every carrier is enclosed, as large as possible, and locked-out parts. In
 * the latter the mechanism is not shown to work, or not on the paths from ride height that `solvePose` tries. Every
 * pose of the rectangle that `solvePose` does not reach is in a locked-out part.
 */
export function divideAtLockOuts(
  setup: CutSetup,
  result: CutSteps,
): { cells: PoseCell[]; lockedOut: LockedOut[] } {
  const { travelMm, steer } = setup;
  const spanMm = travelMm[travelMm.length - 1] - travelMm[0];
  const stepMm = spanMm / (travelMm.length - 1);
  const stepSteer = 2 / (steer.length - 1);
  const [leastMm, mostMm] = [travelMm[0], travelMm[travelMm.length - 1]];
  const enclosed: PoseCell[] = [];
  const lockedOut: Box[] = [];
  const open = new PoseCells(setup.mechanism, leastMm, mostMm).whole();
  for (let cell = open.pop(); cell !== undefined; cell = open.pop()) {
    if (cell.carriers !== undefined) {
      enclosed.push(cell);
      continue;
    }
    const reached = isReachedNear(cell, result, stepMm, stepSteer);
    const [ofStep, ofAll] = reached ? [SHARE_OF_STEP, SHARE_OF_ALL] : [1, SHARE_OF_ALL_UNREACHED];
    const travelTimes = (2 * cell.travelHalfMm) / Math.min(ofStep * stepMm, ofAll * spanMm);
    const steerTimes = (2 * cell.steerHalf) / Math.min(ofStep * stepSteer, ofAll * 2);
    const halves =
      Math.max(travelTimes, steerTimes) > 1
        ? cell.halves(travelTimes >= steerTimes ? 'travel' : 'steer')
        : undefined;
    if (halves !== undefined) open.push(...halves);
    else lockedOut.push(boxOf(cell, !reached));
  }
  const reached = reachedCells(enclosed, leastMm, mostMm);
  for (const cell of enclosed)
    if (!reached.has(cell)) lockedOut.push(boxOf(cell, !isReachedNear(cell, result, stepMm, stepSteer)));
  return {
    cells: enclosed.filter((cell) => reached.has(cell)),
    lockedOut: mergeBoxes(lockedOut).map((box) => ({ ...box, reason: reasonIn(setup.mechanism, box) })),
  };
}

/** Whether a step in a cell, or within one step of it, is reached. */
function isReachedNear(cell: PoseCell, result: CutSteps, stepMm: number, stepSteer: number): boolean {
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

type Box = Omit<LockedOut, 'reason'>;

const boxOf = ({ travelMm, travelHalfMm, steer, steerHalf }: PoseCell, whole: boolean): Box => ({
  travelMm: [travelMm - travelHalfMm, travelMm + travelHalfMm],
  steer: [steer - steerHalf, steer + steerHalf],
  whole,
});

function reasonIn(mechanism: Mechanism, { travelMm, steer }: Box): string | undefined {
  const pose = solvePose(mechanism, (travelMm[0] + travelMm[1]) / 2, (steer[0] + steer[1]) / 2);
  return pose.kind === 'unreachable' ? pose.reason : undefined;
}

/** Merges adjacent boxes with the same `whole`, first along steer, then along travel. */
function mergeBoxes(boxes: Box[]): Box[] {
  const mergeAlong = (list: Box[], along: 'travelMm' | 'steer', across: 'travelMm' | 'steer') => {
    const sorted = [...list].sort(
      (a, b) => a[across][0] - b[across][0] || a[across][1] - b[across][1] || a[along][0] - b[along][0],
    );
    const out: Box[] = [];
    for (const box of sorted) {
      const last = out[out.length - 1];
      const fits =
        last !== undefined &&
        last[across][0] === box[across][0] &&
        last[across][1] === box[across][1] &&
        last[along][1] === box[along][0] &&
        last.whole === box.whole;
      if (fits) out[out.length - 1] = { ...last, [along]: [last[along][0], box[along][1]] };
      else out.push(box);
    }
    return out;
  };
  return mergeAlong(mergeAlong(boxes, 'steer', 'travelMm'), 'travelMm', 'steer');
}
