/** A straight scale: `fromMm` at fraction 0 (left or bottom), `toMm` at fraction 1; either may be the larger. */
export interface Axis {
  fromMm: number;
  toMm: number;
}

/** Where a value lies along the axis, 0 to 1 between its ends; the middle of an axis of no length. */
export const fractionOf = ({ fromMm, toMm }: Axis, mm: number): number =>
  fromMm === toMm ? 0.5 : (mm - fromMm) / (toMm - fromMm);

export const valueAt = ({ fromMm, toMm }: Axis, fraction: number): number =>
  fromMm + (toMm - fromMm) * Math.max(0, Math.min(1, fraction));

/**
 * Edges of the cells that stand round the given places (increasing or decreasing fractions): halfway between
 * neighbours, and the ends of the axis. One more than there are places.
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

/** The step that lies `by` steps from the one nearest to `value`, or the last on that side; `value` itself for 0. */
export function stepped(steps: ArrayLike<number>, value: number, by: number): number {
  if (by === 0) return value;
  const index = nearestIndex(steps, value) + by;
  return steps[Math.max(0, Math.min(steps.length - 1, index))];
}
