/**
 * Returns `count` values from `low` to `high`, both included, evenly spaced on each side of zero. Zero is one of them
 * if it lies between, so that ride height and straight ahead are always steps. Throws a RangeError for a count below
 * 2, or below 3 if zero lies strictly between.
 */
export function stepsThroughZero(low: number, high: number, count: number): Float64Array {
  const zeroWithin = low < 0 && high > 0;
  const least = zeroWithin ? 3 : 2;
  if (!Number.isInteger(count) || count < least)
    throw new RangeError(`${count} steps from ${low} to ${high}: at least ${least} are needed`);
  const below = zeroWithin
    ? Math.min(count - 2, Math.max(1, Math.round(((count - 1) * -low) / (high - low))))
    : low < 0
      ? count - 1
      : 0;
  const above = count - 1 - below;
  const start = zeroWithin || low >= 0 ? Math.max(low, 0) : high;
  return Float64Array.from({ length: count }, (_, i) => {
    if (i < below) return low + ((start - low) * i) / below;
    return i === below ? start : start + ((high - start) * (i - below)) / above;
  });
}

/** Row numbers 0 to count - 1 in coarse-to-fine order: the ends, then the middle of each gap. */
export function coarseToFine(count: number): number[] {
  if (count <= 1) return count === 1 ? [0] : [];
  const order = [0, count - 1];
  let spans: [number, number][] = [[0, count - 1]];
  while (spans.length > 0) {
    const next: [number, number][] = [];
    for (const [from, to] of spans) {
      if (to - from < 2) continue;
      const middle = (from + to) >> 1;
      order.push(middle);
      next.push([from, middle], [middle, to]);
    }
    spans = next;
  }
  return order;
}

/** Number of rows swept one by one for the first picture: the ends, the middle and the quarters. */
const SINGLE_ROWS = 5;
/**
 * Smallest number of bands between two rows of the first picture. Measured on a long-travel corner of 24 bodies:
 * bands of 2 / 3 / 4 / 5 rows took 0.71 / 0.66 / 0.63 / 0.62 of the processor time of single rows, and bands of three times as many rows
 * took no less. With four times the steps, bands of 3 / 5 / 11 / 21 / 41 rows took 5.0 / 4.7 / 4.5 / 4.8 / 5.3 s. The
 * longer the bands, the more the workers' end times differ.
 */
const MIN_BANDS = 2;
/** Largest number of rows of a band. Larger bands save no time per row, and smaller ones keep many workers busy. */
const MAX_BAND_ROWS = 7;
/** Bands per worker, so that all workers end at nearly the same time. */
const BANDS_PER_WORKER = 4;

/**
 * Row numbers 0 to count - 1 in bands of neighbouring rows that are swept together, in sweep order: first a few
 * single rows far apart, for a coarse picture, then bands in the middle of each gap, then finer. `workers`: number of
 * workers that share the bands.
 */
export function bandsCoarseToFine(count: number, workers = 1): number[][] {
  const single = coarseToFine(count).slice(0, SINGLE_ROWS);
  const sorted = single.toSorted((a, b) => a - b);
  const between = sorted.slice(1).map((end, gap) => {
    const start = sorted[gap] + 1;
    const rows = end - start;
    const forWorkers = Math.ceil((BANDS_PER_WORKER * workers) / (SINGLE_ROWS - 1));
    const bands = Math.min(rows, Math.max(MIN_BANDS, Math.ceil(rows / MAX_BAND_ROWS), forWorkers));
    const firstOf = (band: number) => start + Math.round((rows * band) / bands);
    return coarseToFine(bands + 2)
      .slice(2)
      .map((k) => Array.from({ length: firstOf(k) - firstOf(k - 1) }, (_, row) => firstOf(k - 1) + row));
  });
  const maxBands = Math.max(0, ...between.map((bands) => bands.length));
  const rounds = Array.from({ length: maxBands }, (_, round) =>
    between.flatMap((bands) => bands.slice(round, round + 1)),
  );
  return [...single.map((row) => [row]), ...rounds.flat()];
}
