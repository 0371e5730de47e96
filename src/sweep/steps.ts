/**
 * `count` values from `low` to `high`, both included, evenly spaced on each side of zero, with zero itself among them
 * when it lies between, so that ride height and straight ahead are always steps. Throws a RangeError for a count
 * below 2 (below 3 where zero lies strictly between).
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

/** Row numbers 0 to count - 1, ends first, then middles of what lies between: a coarse picture first, then finer. */
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

/** Rows that are swept one by one: the ends, the middle and the quarters, the first picture. */
const ALONE = 5;
/**
 * Bands between two rows of the first picture, at least. Where all rows of the desert demo went in bands of 2 / 3 / 4 / 5 they took
 * 0.71 / 0.66 / 0.63 / 0.62 of the processor time of single rows, and bands of three times as many no less; with four
 * times the steps, bands of 3 / 5 / 11 / 21 / 41 took 5.0 / 4.7 / 4.5 / 4.8 / 5.3 s. The longer a band, the further apart
 * workers come to an end.
 */
const BANDS_BETWEEN = 2;
/** Rows of a band at most: more take no less time for each, and the corners with most steps keep many workers busy. */
const MOST_ROWS = 7;
/** Bands a worker, so that all come to an end at nearly the same time. */
const BANDS_A_WORKER = 4;

/**
 * Row numbers 0 to count - 1 in the bands of neighbours that are swept together, in the order of the sweep: a few rows
 * far apart, each alone, for a coarse picture; then bands in the middles of what lies between, then finer. `workers`: how
 * many share them.
 */
export function bandsCoarseToFine(count: number, workers = 1): number[][] {
  const alone = coarseToFine(count).slice(0, ALONE);
  const placed = alone.toSorted((a, b) => a - b);
  const between = placed.slice(1).map((end, gap) => {
    const start = placed[gap] + 1;
    const rows = end - start;
    const ofEach = Math.ceil((BANDS_A_WORKER * workers) / (ALONE - 1));
    const bands = Math.min(rows, Math.max(BANDS_BETWEEN, Math.ceil(rows / MOST_ROWS), ofEach));
    const firstOf = (band: number) => start + Math.round((rows * band) / bands);
    return coarseToFine(bands + 2)
      .slice(2)
      .map((k) => Array.from({ length: firstOf(k) - firstOf(k - 1) }, (_, row) => firstOf(k - 1) + row));
  });
  const most = Math.max(0, ...between.map((bands) => bands.length));
  const turns = Array.from({ length: most }, (_, turn) =>
    between.flatMap((bands) => bands.slice(turn, turn + 1)),
  );
  return [...alone.map((row) => [row]), ...turns.flat()];
}
