import type { Design } from '../../design/design.ts';
import type { LimitFinding } from '../../findings/limitFindings.ts';
import { isHubPlacedByWheel, withHeldHub } from '../../solids/heldHub.ts';
import type { SweepSettings } from '../../sweep/result.ts';
import { type Axis, type AxisValue, MAX_VALUES } from './axis.ts';
import { type FitInterval, fitIntervals } from './borders.ts';
import type { MeasurePairs } from './measurePairs.ts';
import { type Attempt, Trials } from './trials.ts';
import type { VariedCell } from './variedCell.ts';

export interface VaryOptions {
  settings: SweepSettings;
  /** By default, in the calling thread. */
  measure?: MeasurePairs;
  /** Cancels the study, which then rejects with the signal's reason. */
  signal?: AbortSignal;
  /** Number of values done and number of all known so far; a border adds values when it is reached. */
  onProgress?: (done: number, total: number) => void;
}

export interface Study {
  axes: readonly Axis[];
  /**
   * A cell for every value of the axis. With two axes: every value of the second with the first value of the first,
   * then with the next.
   */
  cells: readonly VariedCell[];
  /** For a single range: the intervals that fit, in ascending order. Undefined for lists and for two axes. */
  intervals: readonly FitInterval[] | undefined;
  /**
   * Whether the hub's position follows from the wheel in the file. The hub is then held where the file's own wheel
   * puts it.
   */
  hubHeld: boolean;
  /** Number of checked pairs, and of those that change with a value or belong to a replaced part. */
  pairCount: number;
  concernedCount: number;
  /** Number of limits of joints and dampers, and of those that change with a value or bind in the file. */
  limitCount: number;
  concernedLimitCount: number;
  /** Limits that are unknown at every value; they do not affect any result. */
  unknownLimits: readonly LimitFinding[];
}

/**
 * Checks a corner with every value of an axis, or with every combination of the values of two axes. A value fits if
 * the pairs that change with it keep their targets over all travel and steering, and no joint or damper binds that
 * changes with it or binds in the file. For a single range, bisection finds the borders between values that fit and
 * values that do not.
 *
 * The hub keeps its position, unless the file says that it follows the wheel: see `withHeldHub`.
 *
 * Throws DesignProblems if the corner itself cannot be built, and a RangeError if there are not one or two axes, or
 * too many values. A value with which the corner cannot be built fails with the reason.
 */
export async function varyCorner(
  design: Design,
  axes: readonly Axis[],
  { settings, measure, signal, onProgress }: VaryOptions,
): Promise<Study> {
  const combinations = combinationsOf(axes);
  const held = withHeldHub(design);
  const trials = await Trials.of(held, settings, measure);
  for (const { part } of axes) if (part !== undefined) trials.judgePart(part);
  let done = 0;
  let total = combinations.length;
  const attempt = async (values: readonly AxisValue[]): Promise<Attempt> => {
    const source = values.reduce<unknown>((file, value) => value.change(file), held.source);
    const attempted = await trials.attempt(source, signal);
    onProgress?.(++done, total);
    return attempted;
  };
  const attempts: Attempt[] = [];
  for (const values of combinations) attempts.push(await attempt(values));
  // Only now are all affected pairs known.
  const cells: VariedCell[] = [];
  for (const [c, values] of combinations.entries())
    cells.push({ values, tried: await trials.judge(attempts[c], signal) });
  const tryFiner = async (value: AxisValue): Promise<VariedCell> => {
    total += 1;
    return { values: [value], tried: await trials.judge(await attempt([value]), signal) };
  };
  const [axis, second] = axes;
  const ranged = second === undefined && axis.values.every(({ amount }) => amount !== undefined);
  return {
    axes,
    cells,
    intervals: ranged ? await fitIntervals(cells, axis.finer, tryFiner) : undefined,
    hubHeld: isHubPlacedByWheel(design),
    pairCount: trials.pairCount,
    concernedCount: trials.concernedCount,
    limitCount: trials.limitCount,
    concernedLimitCount: trials.concernedLimitCount,
    unknownLimits: trials.unknownLimits,
  };
}

function combinationsOf(axes: readonly Axis[]): AxisValue[][] {
  if (axes.length !== 1 && axes.length !== 2)
    throw new RangeError(`vary one or two dimensions at a time, not ${axes.length}`);
  const [first, second] = axes;
  if (first.title === second?.title)
    throw new RangeError(`${first.title} is varied twice; choose two different dimensions`);
  const combinations =
    second === undefined
      ? first.values.map((value) => [value])
      : first.values.flatMap((one) => second.values.map((other) => [one, other]));
  if (combinations.length > MAX_VALUES)
    throw new RangeError(
      `${first.values.length} by ${second?.values.length} values are ${combinations.length}; at most ${MAX_VALUES} are allowed: use larger steps`,
    );
  return combinations;
}
