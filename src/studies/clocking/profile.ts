import { append, type Span, type SpanState, wrapDeg } from './spans.ts';
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

/** A pair at an angle at a glance: no more than how it seems. */
export interface Glance {
  /** As far as it was found: of what fails, the true margin may be any less. */
  marginMm: number;
  seems: SpanState;
}

/** A pair of the study: what its profile is made of, and a first look at it. */
export interface Turned extends Measurable {
  glance(deg: number): Glance;
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
  const repeats = repeatsOf(pair);
  const angles = ANGLES.slice(0, repeats);
  // All first: what is measured on either side helps the proof of what lies between.
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

/** After so many whole degrees a pair is the same again. */
export const repeatsOf = ({ periodDeg = 360 }: Pick<Measurable, 'periodDeg'>): number =>
  Number.isInteger(periodDeg) && 360 % periodDeg === 0 ? periodDeg : 360;

type IsOpen = (deg: number) => boolean;

/** Tells whether the error of measuring leaves it open on which side of 0 the margin is at one angle; each is kept. */
function openAt(pair: Measurable): IsOpen {
  const known = new Map<number, boolean>();
  return (deg) => {
    const before = known.get(deg);
    if (before !== undefined) return before;
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
  // What is open at its middle is not settled over a cell.
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
