import type { Axis, AxisValue } from './axis.ts';
import type { VariedCell } from './variedCell.ts';

/** Values that fit, one beside the other, from the first to the last that was shown to. */
export interface FitInterval {
  first: AxisValue;
  last: AxisValue;
  /** The nearest value tried below `first`, and above `last`, with which it does not fit; undefined at a range's end. */
  below: VariedCell | undefined;
  above: VariedCell | undefined;
}

const fits = ({ tried }: VariedCell): boolean => tried.verdict === 'fits';

/**
 * Where along a range it fits: every run of neighbouring values that all fit, as many as there are. Each border lies
 * between a value that fits and one that does not, next to each other or, where there are finer values, no further apart
 * than told. What lies between two values that both fit, or both do not, was not tried.
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
      c > 0 ? await closeIn(cells[c], cells[c - 1], finer, tryValue) : ([cells[c], undefined] as const);
    const high =
      end + 1 < cells.length
        ? await closeIn(cells[end], cells[end + 1], finer, tryValue)
        : ([cells[end], undefined] as const);
    intervals.push({ first: low[0].values[0], below: low[1], last: high[0].values[0], above: high[1] });
  }
  return intervals;
}

/** Halves the way from a value that fits to one that does not, in whole steps of `finer.by` from the one that fits. */
async function closeIn(
  fitting: VariedCell,
  failing: VariedCell,
  finer: Axis['finer'],
  tryValue: (value: AxisValue) => Promise<VariedCell>,
): Promise<readonly [VariedCell, VariedCell]> {
  const from = fitting.values[0].amount;
  const to = failing.values[0].amount;
  if (finer === undefined || from === undefined || to === undefined) return [fitting, failing];
  const way = to - from;
  // A hair less, so that a whole number of steps stays one.
  let high = Math.ceil(Math.abs(way) / finer.by - 1e-6);
  let low = 0;
  const found: [VariedCell, VariedCell] = [fitting, failing];
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    const cell = await tryValue(finer.at(from + Math.sign(way) * middle * finer.by));
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
