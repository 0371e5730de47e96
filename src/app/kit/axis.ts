/** A straight scale: `fromMm` at fraction 0 (left or bottom), `toMm` at fraction 1; either may be the larger. */
export interface Axis {
  fromMm: number;
  toMm: number;
}

/** Position of a value along the axis, 0 to 1 between its ends; 0.5 on an axis of zero length. */
export const fractionOf = ({ fromMm, toMm }: Axis, mm: number): number =>
  fromMm === toMm ? 0.5 : (mm - fromMm) / (toMm - fromMm);

/** Value at a fraction of the axis; fractions outside 0 to 1 are clamped. */
export const valueAt = ({ fromMm, toMm }: Axis, fraction: number): number =>
  fromMm + (toMm - fromMm) * Math.max(0, Math.min(1, fraction));

/**
 * Edges of the cells around the given places (increasing or decreasing fractions): halfway between neighbours, and the
 * ends of the axis. Returns one edge more than there are places.
 */
export function cellEdges(places: readonly number[]): number[] {
  if (places.length === 0) return [];
  const inner = places.slice(1).map((place, i) => (place + places[i]) / 2);
  const rising = places.length < 2 || places[1] >= places[0];
  return [rising ? 0 : 1, ...inner, rising ? 1 : 0];
}

/** Index of the place nearest to `fraction`. */
export function nearestIndex(places: ArrayLike<number>, fraction: number): number {
  let best = 0;
  for (let i = 1; i < places.length; i++) {
    if (Math.abs(places[i] - fraction) < Math.abs(places[best] - fraction)) best = i;
  }
  return best;
}

/** The step `by` steps from the one nearest to `value`, clamped to the first and last; `value` itself for 0. */
export function stepBy(steps: ArrayLike<number>, value: number, by: number): number {
  if (by === 0) return value;
  const index = nearestIndex(steps, value) + by;
  return steps[Math.max(0, Math.min(steps.length - 1, index))];
}
