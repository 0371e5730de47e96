import type { SweepResult } from '../../sweep/result.ts';
import type { Ranges } from './ranges.ts';

/** Points of the interpolated grid between two steps of the sweep. */
const FINER = 4;

/**
 * The ranges with the largest travel times steering input in which the headroom, interpolated between the steps of a sweep,
 * is at least 0. `least`: the least headroom at each step. An estimate: it proves nothing between the steps.
 */
export function bestRectangle(
  { travelMm, steer }: Pick<SweepResult, 'travelMm' | 'steer'>,
  least: Float64Array,
  asked: Ranges,
): Ranges {
  const travel = finer(travelMm);
  const lock = finer(steer);
  const leftAt = (row: number, column: number): number => {
    const [r, c] = [Math.floor(row / FINER), Math.floor(column / FINER)];
    const [u, v] = [row / FINER - r, column / FINER - c];
    const at = (down: number, across: number) =>
      Math.min(
        MOST,
        least[
          Math.min(r + down, travelMm.length - 1) * steer.length + Math.min(c + across, steer.length - 1)
        ],
      );
    return (1 - u) * ((1 - v) * at(0, 0) + v * at(0, 1)) + u * ((1 - v) * at(1, 0) + v * at(1, 1));
  };
  const [ride, straight] = [travel.indexOf(0), lock.indexOf(0)];
  /** For each column, how many rows above and below ride height are clear. */
  const clearRows = lock.map((_, column) => {
    const count = (sign: 1 | -1): number => {
      let rows = 0;
      while (travel[ride + sign * (rows + 1)] !== undefined && leftAt(ride + sign * (rows + 1), column) >= 0)
        rows += 1;
      return leftAt(ride, column) >= 0 ? rows : -1;
    };
    return { up: count(1), down: count(-1) };
  });
  let best = { area: -1, bump: 0, droop: 0, outboard: 0, inboard: 0 };
  for (let from = straight; from >= 0; from--)
    for (let to = straight; to < lock.length; to++) {
      const within = clearRows.slice(from, to + 1);
      const [up, down] = [Math.min(...within.map((c) => c.up)), Math.min(...within.map((c) => c.down))];
      if (up < 0 || down < 0) continue;
      const ranges = {
        bump: travel[ride + up],
        droop: -travel[ride - down],
        outboard: lock[to] * asked.outboard,
        inboard: -lock[from] * asked.inboard,
      };
      const area = (ranges.bump + ranges.droop) * (ranges.outboard + ranges.inboard);
      if (area > best.area) best = { area, ...ranges };
    }
  const { area: _, ...ranges } = best;
  return ranges;
}

/** Headroom above this says nothing of where it ends. */
const MOST = 1e3;

/** The steps with `FINER` - 1 values between two of them. */
const finer = (steps: Float64Array): number[] =>
  Array.from({ length: (steps.length - 1) * FINER + 1 }, (_, i) => {
    const [k, rest] = [Math.floor(i / FINER), i % FINER];
    return rest === 0 ? steps[k] : steps[k] + ((steps[k + 1] - steps[k]) * rest) / FINER;
  });
