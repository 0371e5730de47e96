import type { Design } from '../../design/design.ts';
import type { LimitFinding } from '../../findings/limitFindings.ts';
import { isHubPlacedByWheel, withHeldHub } from '../../solids/heldHub.ts';
import type { SweepSettings } from '../../sweep/result.ts';
import { type Axis, type AxisValue, MOST_VALUES } from './axis.ts';
import { type FitInterval, fitIntervals } from './borders.ts';
import type { MeasurePairs } from './measurePairs.ts';
import { type Attempt, Trials } from './trials.ts';
import type { VariedCell } from './variedCell.ts';

export interface VaryOptions {
  settings: SweepSettings;
  /** In the calling thread where absent. */
  measure?: MeasurePairs;
  /** Ends the study early: it rejects with the signal's reason. */
  signal?: AbortSignal;
  /** Values done, of all that are known to come; a border adds some when it is reached. */
  onProgress?: (done: number, total: number) => void;
}

export interface Study {
  axes: readonly Axis[];
  /** Every value of the axis; of two, every value of the second with the first of the first axis, then the next. */
  cells: readonly VariedCell[];
  /** Of one range: where it fits, from the least up. Undefined of lists and of two axes. */
  intervals: readonly FitInterval[] | undefined;
  /** Whether the file leaves it to its wheel where the hub is: it is then held where the file's own wheel puts it. */
  hubHeld: boolean;
  /** Checked pairs of the corner, and how many of them change with what is varied, or are of a part that a list replaces. */
  pairCount: number;
  concernedCount: number;
  /** Limits of joints and dampers of the corner, and how many of them change with what is varied, or bind in the file. */
  limitCount: number;
  concernedLimitCount: number;
  /** Limits that are unknown at every value alike; they do not count for any value. */
  unknownLimits: readonly LimitFinding[];
}

/**
 * Tries a corner with every value of an axis, or with every value of one and every value of another, and says of each
 * whether the pairs that change with it keep their targets over all travel and steering, and no joint or damper that does,
 * or that binds in the file, binds there. Along one range the borders
 * between values that fit and values that do not are closed in on by halves.
 *
 * The hub stays where it is, unless the file says that it follows the wheel: see `withHeldHub`.
 *
 * Throws DesignProblems where the corner itself cannot be built, a RangeError for other than one or two axes or too many
 * values. A value with which it cannot be built is a failure in its own words.
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
  // Only now is it known which pairs are concerned.
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
    throw new RangeError(`one or two things are varied at a time, not ${axes.length}`);
  const [first, second] = axes;
  if (first.title === second?.title)
    throw new RangeError(`${first.title} is varied twice; vary two different things`);
  const combinations =
    second === undefined
      ? first.values.map((value) => [value])
      : first.values.flatMap((one) => second.values.map((other) => [one, other]));
  if (combinations.length > MOST_VALUES)
    throw new RangeError(
      `${first.values.length} by ${second?.values.length} values are ${combinations.length}; at most ${MOST_VALUES} are allowed: take longer steps`,
    );
  return combinations;
}
