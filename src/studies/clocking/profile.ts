import { append, type Span, wrapDeg } from './spans.ts';
import type { MarginBounds, TurnedMargin } from './turningPair.ts';

/** Angles that are measured, one to a degree: `ANGLES[k]` is `k - 180`. */
export const ANGLES: readonly number[] = Array.from({ length: 360 }, (_, k) => k - 180);

/** Place in `ANGLES` of the whole degree nearest to an angle. */
export const angleIndex = (deg: number): number => wrapDeg(Math.round(deg)) + 180;

/** Margin of a pair as a function of one angle. */
export interface Profile {
  /** At each of `ANGLES`; +Infinity where beyond the search limit, NaN where it cannot be told. */
  marginMm: Float64Array;
  /** Error bound of each; NaN where the margin is no finite number. */
  errorMm: Float64Array;
  /** The whole circle, from FIRST_DEG on: where it is proved that the pair keeps its margin and where that it does not. */
  spans: Span[];
}

/** What a profile is made of: a pair measured at an angle, and bounded over the angles around it. */
export interface Measurable {
  /** Turned by so much the pair is the same again; 360 unless told. */
  periodDeg?: number;
  at(deg: number): TurnedMargin;
  bounds(deg: number, halfDeg: number): MarginBounds;
}

/** A cell this narrow is not halved where error hides its middle and both ends: the ends of arcs are within it. */
const NARROW_DEG = 0.1;

/** No cell is narrower than half of this, so that what it adds to the error at an end stays small beside it. */
const NARROWEST_DEG = 0.02;

/**
 * The margin at every whole degree, and the proof over the whole circle: cells of a degree, each about a whole one, are
 * halved until the bound over a cell settles it or it is so narrow that the error of measuring decides.
 */
export function profileOf(pair: Measurable): Profile {
  const marginMm = new Float64Array(ANGLES.length);
  const errorMm = new Float64Array(ANGLES.length);
  const spans: Span[] = [];
  const { periodDeg = 360 } = pair;
  const repeats = Number.isInteger(periodDeg) && 360 % periodDeg === 0 ? periodDeg : 360;
  ANGLES.slice(0, repeats).forEach((deg, k) => {
    proveCell(pair, deg - 0.5, deg + 0.5, spans);
    const measured = pair.at(deg);
    marginMm[k] = measured.marginMm;
    errorMm[k] = measured.errorMm;
  });
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

function proveCell(pair: Measurable, fromDeg: number, toDeg: number, spans: Span[]): void {
  const middleDeg = (fromDeg + toDeg) / 2;
  const { lowerMm, upperMm } = pair.bounds(middleDeg, (toDeg - fromDeg) / 2);
  if (lowerMm >= 0) append(spans, { fromDeg, toDeg, state: 'clears' });
  else if (upperMm < 0) append(spans, { fromDeg, toDeg, state: 'fails' });
  else if (isSettledByError(pair, fromDeg, toDeg)) append(spans, { fromDeg, toDeg, state: 'unsettled' });
  else {
    proveCell(pair, fromDeg, middleDeg, spans);
    proveCell(pair, middleDeg, toDeg, spans);
  }
}

function isSettledByError(pair: Measurable, fromDeg: number, toDeg: number): boolean {
  const widthDeg = toDeg - fromDeg;
  if (widthDeg <= NARROWEST_DEG) return true;
  return (
    widthDeg <= NARROW_DEG && [(fromDeg + toDeg) / 2, fromDeg, toDeg].every((deg) => isOpenAt(pair, deg))
  );
}

/** Whether the error of measuring leaves it open on which side of 0 the margin is at one angle. */
function isOpenAt(pair: Measurable, deg: number): boolean {
  const { lowerMm, upperMm } = pair.bounds(deg, 0);
  return lowerMm < 0 && upperMm >= 0;
}
