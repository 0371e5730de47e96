/** A function's value and slope at `x`. */
export interface Sample {
  x: number;
  value: number;
  slope: number;
}

/**
 * The root of a function between two samples whose values differ in sign. Uses Newton's method. It halves the bracket
 * instead if a Newton step would leave the bracket or if the last step did not at least halve the value. Stops when
 * `|value| <= tolerance` or when no number lies between the ends. Returns the best sample; undefined if `sample`
 * returns undefined (the function has no value there). Throws a RangeError if the values do not differ in sign.
 */
export function bracketedNewton<S extends Sample>(
  sample: (x: number) => S | undefined,
  one: S,
  other: S,
  tolerance: number,
): S | undefined {
  if (one.value * other.value > 0)
    throw new RangeError(`no root bracketed between ${one.x} (${one.value}) and ${other.x} (${other.value})`);
  let [low, high] = one.value < 0 || other.value > 0 ? [one, other] : [other, one];
  let best = Math.abs(low.value) <= Math.abs(high.value) ? low : high;
  let halve = false;
  while (Math.abs(best.value) > tolerance) {
    const newton = best.x - best.value / best.slope;
    const within = (newton - low.x) * (newton - high.x) < 0;
    const x = within && !halve ? newton : low.x + (high.x - low.x) / 2;
    if (x === low.x || x === high.x) break;
    const next = sample(x);
    if (next === undefined) return undefined;
    halve = Math.abs(next.value) > Math.abs(best.value) / 2;
    if (next.value < 0) low = next;
    else high = next;
    if (Math.abs(next.value) < Math.abs(best.value)) best = next;
  }
  return best;
}
