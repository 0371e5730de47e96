import { POSE_STATES, type SweepResult } from '../../sweep/result.ts';

/** Clearance of one pair along one row or column of a sweep. */
export interface Series {
  pair: number;
  /** mm; the search limit where at least that far; NaN where unreachable, unknown or pending. */
  clearanceMm: readonly number[];
}

const SOLVED = POSE_STATES.indexOf('solved');

function along(result: SweepResult, pair: number, steps: readonly number[]): Series {
  const total = result.poseState.length;
  return {
    pair,
    clearanceMm: steps.map((step) =>
      result.poseState[step] === SOLVED
        ? Math.min(result.clearanceMm[pair * total + step], result.settings.limitMm)
        : Number.NaN,
    ),
  };
}

/** Against travel, at one steer step. */
export const alongTravel = (result: SweepResult, pair: number, steerIndex: number): Series =>
  along(
    result,
    pair,
    Array.from(result.travelMm, (_, t) => t * result.steer.length + steerIndex),
  );

/** Against steer, at one travel step. */
export const alongSteer = (result: SweepResult, pair: number, travelIndex: number): Series =>
  along(
    result,
    pair,
    Array.from(result.steer, (_, s) => travelIndex * result.steer.length + s),
  );

/** Tallest clearance that a chart has room for: what matters is near the target. */
const TALL_MM = 30;
const TARGETS_TALL = 3;

/** Lowest and highest clearance drawn: contact, the targets and every touch are always in. */
export function chartRange(
  series: readonly Series[],
  targetsMm: readonly number[],
): { low: number; high: number } {
  const values = series.flatMap(({ clearanceMm }) => clearanceMm.filter((mm) => !Number.isNaN(mm)));
  const tall = Math.max(TALL_MM, ...targetsMm.map((mm) => TARGETS_TALL * mm));
  const high = Math.min(tall, Math.max(...targetsMm.map((mm) => 1.5 * mm), ...values, 1));
  const low = Math.min(0, ...values);
  const pad = 0.08 * (high - low);
  return { low: low - pad, high: high + pad };
}

/** SVG path through the points that are known, broken where they are not. `x` and `y` give px. */
export function linePath(
  values: readonly number[],
  x: (index: number) => number,
  y: (value: number) => number,
): string {
  let path = '';
  let drawing = false;
  values.forEach((value, i) => {
    if (Number.isNaN(value)) {
      drawing = false;
      return;
    }
    path += `${drawing ? 'L' : 'M'}${x(i).toFixed(1)} ${y(value).toFixed(1)}`;
    drawing = true;
  });
  return path;
}
