import type { LockedOut } from '../../src/proof/prove.ts';
import { POSE_STATES } from '../../src/sweep/result.ts';
import { RowSweeper } from '../../src/sweep/row.ts';
import type { Setup } from '../../src/sweep/setUp.ts';

/** The smallest clearance of a pair over a sweep, and its pose. */
export interface Least {
  clearanceMm: number;
  travelMm: number;
  steer: number;
}

const finer = (values: Float64Array, times: number): Float64Array =>
  Float64Array.from({ length: (values.length - 1) * times + 1 }, (_, k) => {
    const [step, part] = [Math.floor(k / times), k % times];
    return part === 0 ? values[step] : values[step] + ((values[step + 1] - values[step]) * part) / times;
  });

/**
 * The smallest clearance of each pair over a sweep that is `times` finer in both directions, outside the given parts;
 * Infinity if all are beyond the limit. Also returns the unreachable poses.
 */
export function leastOfFiner(
  setup: Setup,
  times: number,
  without: readonly LockedOut[],
): { least: Least[]; unreachable: { travelMm: number; steer: number }[] } {
  const sweeper = new RowSweeper(setup);
  const steers = finer(setup.steer, times);
  const least: Least[] = setup.pairs.map(() => ({
    clearanceMm: Number.POSITIVE_INFINITY,
    travelMm: 0,
    steer: 0,
  }));
  const unreachable: { travelMm: number; steer: number }[] = [];
  for (const travelMm of finer(setup.travelMm, times)) {
    const row = sweeper.sweep(travelMm, steers);
    steers.forEach((steer, s) => {
      if (POSE_STATES[row.poseState[s]] === 'unreachable') unreachable.push({ travelMm, steer });
      if (without.some((part) => isIn(part, travelMm, steer))) return;
      least.forEach((known, p) => {
        const clearanceMm = row.clearanceMm[p * steers.length + s];
        if (clearanceMm < known.clearanceMm) Object.assign(known, { clearanceMm, travelMm, steer });
      });
    });
  }
  return { least, unreachable };
}

export const isIn = (part: LockedOut, travelMm: number, steer: number): boolean =>
  travelMm >= part.travelMm[0] &&
  travelMm <= part.travelMm[1] &&
  steer >= part.steer[0] &&
  steer <= part.steer[1];

/**
 * Descends from a pose to ever smaller clearance of a pair, outside the given parts, down to a thousandth of the
 * sweep's steps.
 */
export function descendFrom(setup: Setup, pair: number, from: Least, without: readonly LockedOut[]): Least {
  const sweeper = new RowSweeper(setup);
  const { travelMm: travels, steer: steers } = setup;
  const [low, high] = [travels[0], travels[travels.length - 1]];
  let at = from;
  for (let share = 1 / 20; share > 1e-3; ) {
    const travelStep = (share * (high - low)) / (travels.length - 1);
    const steerStep = (share * 2) / (steers.length - 1);
    const around = [-1, 0, 1].flatMap((dt) => [-1, 0, 1].map((ds) => [dt, ds]));
    const best = around
      .map(([dt, ds]): Least => {
        const travelMm = Math.min(high, Math.max(low, at.travelMm + dt * travelStep));
        const steer = Math.min(1, Math.max(-1, at.steer + ds * steerStep));
        const clearanceMm = without.some((part) => isIn(part, travelMm, steer))
          ? Number.POSITIVE_INFINITY
          : sweeper.sweep(travelMm, Float64Array.of(steer)).clearanceMm[pair];
        return { travelMm, steer, clearanceMm };
      })
      .reduce((a, b) => (b.clearanceMm < a.clearanceMm ? b : a));
    if (best.clearanceMm < at.clearanceMm) at = best;
    else share /= 2;
  }
  return at;
}
