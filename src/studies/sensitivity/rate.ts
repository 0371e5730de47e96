/** A clearance with its error bound, mm. */
export interface Reading {
  mm: number;
  errorMm: number;
}

/** Change of a clearance per unit of a value, mm per mm or mm per degree, with its error bound. */
export interface Slope {
  perUnit: number;
  error: number;
}

/** How a clearance changes with one value. */
export interface Rate {
  /** Average slope over one step below the value, and over one step above it; undefined if not measured. */
  below: Slope | undefined;
  above: Slope | undefined;
  /**
   * The slope on both sides: its error also covers the difference between the two. Undefined if one side is not
   * measured, or if another pose or another place becomes the nearest within the step.
   */
  both: Slope | undefined;
}

/** Slopes on both sides that differ by no more than this are one slope, mm per unit. */
const SMOOTH = 0.1;

/** Average slope from one reading to another one that is `step` units higher. */
function slopeOf(low: Reading | undefined, high: Reading | undefined, step: number): Slope | undefined {
  if (low === undefined || high === undefined) return undefined;
  const slope = { perUnit: (high.mm - low.mm) / step, error: (high.errorMm + low.errorMm) / step };
  return Number.isFinite(slope.perUnit) && Number.isFinite(slope.error) ? slope : undefined;
}

/** Difference between the slopes on both sides; 0 if one is not measured. */
const differenceOf = ({ below, above }: Pick<Rate, 'below' | 'above'>): number =>
  below === undefined || above === undefined ? 0 : Math.abs(above.perUnit - below.perUnit);

/** Whether the slopes on both sides differ so much that a smaller step must show why. */
export const needsSmallerStep = (rate: Rate): boolean => differenceOf(rate) > SMOOTH;

/**
 * Whether a difference between the slopes on both sides is that of a curve: over a quarter of the step it is a quarter.
 * Where another place becomes the nearest, at the value or within the step, it stays as it is or vanishes.
 */
function isCurve(difference: number, smaller: Rate): boolean {
  const share = differenceOf(smaller) / difference;
  return share > 1 / 8 && share < 1 / 2;
}

/**
 * The rate of a clearance from readings at a value, one step below it and one step above it. `smaller`: the rate over a
 * step of a quarter, which decides between a curve and a switch if the slopes differ.
 */
export function rateOf(
  at: Reading,
  below: Reading | undefined,
  above: Reading | undefined,
  step: number,
  smaller?: Rate,
): Rate {
  const sides = { below: slopeOf(below, at, step), above: slopeOf(at, above, step) };
  const central = slopeOf(below, above, 2 * step);
  const difference = differenceOf(sides);
  const isSwitch = difference > SMOOTH && smaller !== undefined && !isCurve(difference, smaller);
  const both =
    central === undefined || isSwitch
      ? undefined
      : { perUnit: central.perUnit, error: central.error + difference / 2 };
  return { ...sides, both };
}

/** Size of a rate, for ranking: the larger side if the two differ. */
export const slopeSize = ({ both, below, above }: Rate): number =>
  Math.max(...(both === undefined ? [below, above] : [both]).map((slope) => Math.abs(slope?.perUnit ?? 0)));
