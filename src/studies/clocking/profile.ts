import { append, type Span, wrapDeg } from './spans.ts';
import type { MarginBounds, MarginEstimate, TurnedMargin } from './turningPair.ts';

/** The measured angles, one for each degree: `ANGLES[k]` is `k - 180`. */
export const ANGLES: readonly number[] = Array.from({ length: 360 }, (_, k) => k - 180);

/** Index in `ANGLES` of the whole degree nearest to an angle. */
export const angleIndex = (deg: number): number => wrapDeg(Math.round(deg)) + 180;

/** Margin of a pair as a function of one angle. */
export interface Profile {
  /** Margin at each of `ANGLES`; +Infinity if beyond the search limit, NaN if unknown. */
  marginMm: Float64Array;
  /** Error bound of each; NaN if the margin is not a finite number. */
  errorMm: Float64Array;
  /** The whole circle from FIRST_DEG, divided by whether the pair is proved to keep its margin. */
  spans: Span[];
}

/** A pair that can be measured at an angle and bounded over a range of angles. */
export interface Measurable {
  /** Rotational period of the pair, degrees; default 360. */
  periodDeg?: number;
  at(deg: number): TurnedMargin;
  bounds(deg: number, halfDeg: number): MarginBounds;
}

/** A measurable pair with a fast estimate of its margin. */
export interface Turned extends Measurable {
  estimate(deg: number): MarginEstimate;
}

/**
 * A cell this narrow is not halved if the error hides the sign at its middle and both ends: the ends of arcs are
 * within it, degrees.
 */
const NARROW_DEG = 0.1;

/** Cells narrower than this are not halved; it keeps their effect on the error at an arc's end small, degrees. */
const NARROWEST_DEG = 0.02;

/**
 * Measures the margin at every whole degree and proves its sign over the whole circle. Cells of one degree, each
 * about a whole degree, are halved until the bound over a cell settles its sign, or the cell is so narrow that the
 * measuring error decides.
 */
export function profileOf(pair: Measurable): Profile {
  const marginMm = new Float64Array(ANGLES.length);
  const errorMm = new Float64Array(ANGLES.length);
  const spans: Span[] = [];
  const repeats = repeatsOf(pair);
  const angles = ANGLES.slice(0, repeats);
  // Measures all angles first: the measurements on both sides help the proofs between them.
  angles.forEach((deg, k) => {
    const measured = pair.at(deg);
    marginMm[k] = measured.marginMm;
    errorMm[k] = measured.errorMm;
  });
  const isOpen = openAt(pair);
  for (const deg of angles) proveCell(pair, isOpen, deg - 0.5, deg + 0.5, spans);
  const once = spans.map((span) => ({ ...span }));
  for (let k = repeats; k < ANGLES.length; k++) {
    marginMm[k] = marginMm[k - repeats];
    errorMm[k] = errorMm[k - repeats];
    if (k % repeats === 0)
      for (const { fromDeg, toDeg, state } of once)
        append(spans, { fromDeg: fromDeg + k, toDeg: toDeg + k, state });
  }
  return { marginMm, errorMm, spans };
}

/** Number of whole degrees after which a pair repeats. */
export const repeatsOf = ({ periodDeg = 360 }: Pick<Measurable, 'periodDeg'>): number =>
  Number.isInteger(periodDeg) && 360 % periodDeg === 0 ? periodDeg : 360;

type IsOpen = (deg: number) => boolean;

/** Creates a cached test whether the measuring error leaves the sign of the margin open at an angle. */
function openAt(pair: Measurable): IsOpen {
  const known = new Map<number, boolean>();
  return (deg) => {
    const cached = known.get(deg);
    if (cached !== undefined) return cached;
    const { lowerMm, upperMm } = pair.bounds(deg, 0);
    const isOpen = lowerMm < 0 && upperMm >= 0;
    known.set(deg, isOpen);
    return isOpen;
  };
}

function proveCell(pair: Measurable, isOpen: IsOpen, fromDeg: number, toDeg: number, spans: Span[]): void {
  const middleDeg = (fromDeg + toDeg) / 2;
  const widthDeg = toDeg - fromDeg;
  const isNarrow = widthDeg <= NARROW_DEG;
  // A cell with an open middle cannot be settled.
  if (!isNarrow || !isOpen(middleDeg)) {
    const { lowerMm, upperMm } = pair.bounds(middleDeg, widthDeg / 2);
    if (lowerMm >= 0 || upperMm < 0) {
      append(spans, { fromDeg, toDeg, state: lowerMm >= 0 ? 'clears' : 'fails' });
      return;
    }
  }
  if (widthDeg <= NARROWEST_DEG || (isNarrow && [middleDeg, fromDeg, toDeg].every(isOpen))) {
    append(spans, { fromDeg, toDeg, state: 'unsettled' });
    return;
  }
  proveCell(pair, isOpen, fromDeg, middleDeg, spans);
  proveCell(pair, isOpen, middleDeg, toDeg, spans);
}
