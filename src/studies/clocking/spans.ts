/** clears: proved that the margin is at least 0. fails: proved that it is less. unsettled: neither. */
export type SpanState = 'clears' | 'fails' | 'unsettled';

/** A range of angles with one state, degrees. */
export interface Span {
  fromDeg: number;
  toDeg: number;
  state: SpanState;
}

/** A range of a circle: `toDeg` is above `fromDeg` and may exceed 180; a whole circle is 360 degrees long. */
export interface Arc {
  fromDeg: number;
  toDeg: number;
}

export const WHOLE_DEG = 360;

export const isWhole = ({ fromDeg, toDeg }: Arc): boolean => toDeg - fromDeg >= WHOLE_DEG;

/** The same angle in the range -180 (included) to 180 (excluded). */
export const wrapDeg = (deg: number): number =>
  deg - WHOLE_DEG * Math.floor((deg + WHOLE_DEG / 2) / WHOLE_DEG);

/** Whether an angle, shifted by any number of whole turns, is in an arc, ends included. */
export function isInArc({ fromDeg, toDeg }: Arc, deg: number): boolean {
  const past = deg - fromDeg - WHOLE_DEG * Math.floor((deg - fromDeg) / WHOLE_DEG);
  return past <= toDeg - fromDeg;
}

/** Start of the spans of a circle: half a degree before the first whole degree. */
export const FIRST_DEG = -180.5;

/** A whole circle with one state. */
export const wholeCircle = (state: SpanState): Span[] => [
  { fromDeg: FIRST_DEG, toDeg: FIRST_DEG + WHOLE_DEG, state },
];

/**
 * Combines several lists of spans, each of one whole circle from FIRST_DEG: clears if all clear, fails if any fails.
 */
export function together(lists: readonly (readonly Span[])[]): Span[] {
  return lists.reduce<Span[]>((one, other) => merged(one, other), wholeCircle('clears'));
}

function merged(one: readonly Span[], other: readonly Span[]): Span[] {
  const out: Span[] = [];
  for (let i = 0, j = 0; i < one.length && j < other.length; ) {
    const fromDeg = Math.max(one[i].fromDeg, other[j].fromDeg);
    const toDeg = Math.min(one[i].toDeg, other[j].toDeg);
    append(out, { fromDeg, toDeg, state: worse(one[i].state, other[j].state) });
    if (one[i].toDeg === toDeg) i += 1;
    if (other[j]?.toDeg === toDeg) j += 1;
  }
  return out;
}

/** Combines two states; see `together`. */
export const worse = (one: SpanState, other: SpanState): SpanState =>
  one === 'fails' || other === 'fails'
    ? 'fails'
    : one === 'unsettled' || other === 'unsettled'
      ? 'unsettled'
      : 'clears';

/** Appends a span to a list, merged with the last one if the state is the same. */
export function append(spans: Span[], span: Span): void {
  if (span.toDeg <= span.fromDeg) return;
  const last = spans.at(-1);
  if (last !== undefined && last.state === span.state) last.toDeg = span.toDeg;
  else spans.push({ ...span });
}

/** The arcs of a state around the circle; the first and the last span are neighbours. */
export function arcsOf(spans: readonly Span[], state: SpanState): Arc[] {
  const found = spans
    .filter((span) => span.state === state)
    .map(({ fromDeg, toDeg }) => ({ fromDeg, toDeg }));
  const [first, last] = [spans[0], spans.at(-1)];
  const joins = found.length > 1 && first?.state === state && last?.state === state;
  if (!joins) return found;
  const [head, ...rest] = found;
  rest[rest.length - 1].toDeg += head.toDeg - head.fromDeg;
  return rest;
}

/** The state at an angle; where two spans meet, that of the span that begins there. */
export function stateAt(spans: readonly Span[], deg: number): SpanState {
  const at = deg - WHOLE_DEG * Math.floor((deg - FIRST_DEG) / WHOLE_DEG);
  return (spans.find(({ toDeg }) => at < toDeg) ?? spans[spans.length - 1]).state;
}
