import type { Place } from '../../proof/proveBetween.ts';
import { POSE_STATES, type SweepResult } from '../../sweep/result.ts';

/** Clearance of one pair along one row or column of a sweep. */
export interface Series {
  pair: number;
  /** mm, capped at the search limit; NaN if unreachable, unknown or pending. */
  clearanceMm: readonly number[];
  /** Error of each clearance, mm; NaN if there is none. */
  errorMm: readonly number[];
}

/** The steps along one line of a sweep: a row, or a column. */
export interface Line {
  /** Indices into the steps of the sweep. */
  steps: readonly number[];
  places: readonly Place[];
}

const SOLVED = POSE_STATES.indexOf('solved');

/** All travels at one steer step. */
export const lineOfTravel = ({ travelMm, steer }: Steps, steerIndex: number): Line => ({
  steps: Array.from(travelMm, (_, t) => t * steer.length + steerIndex),
  places: Array.from(travelMm, (travel) => ({ travelMm: travel, steer: steer[steerIndex] })),
});

/** All steers at one travel step. */
export const lineOfSteer = ({ travelMm, steer }: Steps, travelIndex: number): Line => ({
  steps: Array.from(steer, (_, s) => travelIndex * steer.length + s),
  places: Array.from(steer, (lock) => ({ travelMm: travelMm[travelIndex], steer: lock })),
});

type Steps = Pick<SweepResult, 'travelMm' | 'steer'>;

export function seriesOf(result: SweepResult, pair: number, { steps }: Line): Series {
  const first = pair * result.poseState.length;
  const solved = steps.map((step) => result.poseState[step] === SOLVED);
  return {
    pair,
    clearanceMm: steps.map((step, k) =>
      solved[k] ? Math.min(result.clearanceMm[first + step], result.settings.limitMm) : Number.NaN,
    ),
    errorMm: steps.map((step, k) => (solved[k] ? result.errorMm[first + step] : Number.NaN)),
  };
}

/** The lesser clearance of each two neighbouring steps, mm; NaN if either is unknown. */
export const lesserOfTwo = ({ clearanceMm }: Pick<Series, 'clearanceMm'>): number[] =>
  clearanceMm.slice(1).map((mm, k) => Math.min(mm, clearanceMm[k]));

const MIN_TOP_MM = 30;
const TOP_IN_TARGETS = 3;

/** Upper end of the chart's range, mm; clearances far above the target are cut off. */
export const chartTopMm = (targetsMm: readonly number[]): number =>
  Math.max(MIN_TOP_MM, ...targetsMm.map((mm) => TOP_IN_TARGETS * mm));

/** Lowest and highest clearance drawn, mm; always includes contact, the targets and every overlap. */
export function chartRange(
  series: readonly Series[],
  targetsMm: readonly number[],
): { low: number; high: number } {
  const values = series.flatMap(({ clearanceMm }) => clearanceMm.filter((mm) => !Number.isNaN(mm)));
  const high = Math.min(chartTopMm(targetsMm), Math.max(...targetsMm.map((mm) => 1.5 * mm), ...values, 1));
  const low = Math.min(0, ...values);
  const pad = 0.08 * (high - low);
  return { low: low - pad, high: high + pad };
}

/**
 * The end of a line of steps for the label of a target: where the nearest curve is further from the target. `curvesMm`:
 * clearance at each step, mm; NaN where it is unknown and not drawn.
 */
export function labelEnd(curvesMm: readonly (readonly number[])[], targetMm: number): 'first' | 'last' {
  const distanceMm = (end: 0 | -1): number =>
    Math.min(
      ...curvesMm.map((clearanceMm) => {
        const mm = clearanceMm.at(end) ?? Number.NaN;
        return Number.isNaN(mm) ? Number.POSITIVE_INFINITY : Math.abs(mm - targetMm);
      }),
    );
  return distanceMm(0) > distanceMm(-1) ? 'first' : 'last';
}

/** SVG path through the known points, interrupted at unknown ones. `x` and `y` return px. */
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

/**
 * SVG path of the proved band: from the line between two steps down to the lower bound minus the larger error of the two
 * steps. Left out if either step is unknown or nothing is proved. `x` and `y` return px.
 */
export function bandPath(
  { clearanceMm, errorMm }: Series,
  lowerMm: readonly number[],
  x: (index: number) => number,
  y: (value: number) => number,
): string {
  return lowerMm
    .map((lower, k) => {
      const [from, to] = [clearanceMm[k], clearanceMm[k + 1]];
      if (Number.isNaN(from) || Number.isNaN(to) || !Number.isFinite(lower)) return '';
      const error = Math.max(errorMm[k] || 0, errorMm[k + 1] || 0);
      if (error === Number.POSITIVE_INFINITY) return '';
      const [left, right] = [x(k).toFixed(1), x(k + 1).toFixed(1)];
      return `M${left} ${y(from).toFixed(1)}L${right} ${y(to).toFixed(1)}V${y(lower - error).toFixed(1)}H${left}Z`;
    })
    .join('');
}
