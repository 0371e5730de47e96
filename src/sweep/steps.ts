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
