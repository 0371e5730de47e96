import type { Axis, AxisValue } from './axis.ts';
import type { VariedCell } from './variedCell.ts';

/** An interval of values that fit, from the first to the last that was checked. */
export interface FitInterval {
  first: AxisValue;
  last: AxisValue;
  /** The nearest checked values below `first` and above `last` that do not fit; undefined at an end of the range. */
  below: VariedCell | undefined;
  above: VariedCell | undefined;
}

const fits = ({ tried }: VariedCell): boolean => tried.verdict === 'fits';

/**
 * Finds the intervals of a range that fit: every run of neighbouring values that all fit. Each border is between a
 * value that fits and one that does not. These are neighbouring values or, with finer values, at most `finer.by`
 * apart. Between two values with the same result nothing is checked.
 */
export async function fitIntervals(
  cells: readonly VariedCell[],
  finer: Axis['finer'],
  tryValue: (value: AxisValue) => Promise<VariedCell>,
): Promise<FitInterval[]> {
  const intervals: FitInterval[] = [];
  for (let c = 0; c < cells.length; c++) {
    if (!fits(cells[c]) || (c > 0 && fits(cells[c - 1]))) continue;
    let end = c;
    while (end + 1 < cells.length && fits(cells[end + 1])) end += 1;
    const low =
      c > 0 ? await bisect(cells[c], cells[c - 1], finer, tryValue) : ([cells[c], undefined] as const);
    const high =
      end + 1 < cells.length
        ? await bisect(cells[end], cells[end + 1], finer, tryValue)
        : ([cells[end], undefined] as const);
    intervals.push({ first: low[0].values[0], below: low[1], last: high[0].values[0], above: high[1] });
  }
  return intervals;
}

/** Bisects between a value that fits and one that does not, in whole steps of `finer.by` from the one that fits. */
async function bisect(
  fitting: VariedCell,
  failing: VariedCell,
  finer: Axis['finer'],
  tryValue: (value: AxisValue) => Promise<VariedCell>,
): Promise<readonly [VariedCell, VariedCell]> {
  const from = fitting.values[0].amount;
  const to = failing.values[0].amount;
  if (finer === undefined || from === undefined || to === undefined) return [fitting, failing];
  const difference = to - from;
  // Slightly less, so that rounding does not add a step.
  let high = Math.ceil(Math.abs(difference) / finer.by - 1e-6);
  let low = 0;
  const found: [VariedCell, VariedCell] = [fitting, failing];
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    const cell = await tryValue(finer.at(from + Math.sign(difference) * middle * finer.by));
    if (fits(cell)) {
      low = middle;
      found[0] = cell;
    } else {
      high = middle;
      found[1] = cell;
    }
  }
  return found;
}
