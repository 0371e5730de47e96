import { ANGLES, type Glance, type Profile, repeatsOf, type Turned } from './profile.ts';
import { append, FIRST_DEG, type Span, WHOLE_DEG, wholeCircle } from './spans.ts';

/** A first look at a pair is taken every so many degrees. */
export const LOOK_DEG = 10;

/** A pair at a glance at every LOOK_DEG degrees, from -180 on, of as much of a turn as it takes to be the same again. */
export type FirstLook = readonly Glance[];

/** Takes a first look at a pair: no proof, and nothing of what lies between. */
export const firstLookAt = (pair: Turned): FirstLook =>
  ANGLES.slice(0, repeatsOf(pair))
    .filter((_, k) => k % LOOK_DEG === 0)
    .map((deg) => pair.glance(deg));

/** A first look as a profile: at each angle what was seen nearest to it. Nothing of it is proved. */
export function profileSeen(pair: Turned, look: FirstLook): Profile {
  const repeats = repeatsOf(pair);
  const seenAt = (k: number): Glance => look[Math.round((k % repeats) / LOOK_DEG) % look.length];
  const spans: Span[] = [];
  for (let k = 0; k < WHOLE_DEG; k++)
    append(spans, { fromDeg: FIRST_DEG + k, toDeg: FIRST_DEG + k + 1, state: seenAt(k).seems });
  return {
    marginMm: Float64Array.from(ANGLES, (_, k) => seenAt(k).marginMm),
    errorMm: new Float64Array(ANGLES.length).fill(Number.NaN),
    spans,
  };
}

/** Of a pair that nobody has looked at yet. */
export const NOT_SEEN: Profile = {
  marginMm: new Float64Array(ANGLES.length).fill(Number.NaN),
  errorMm: new Float64Array(ANGLES.length).fill(Number.NaN),
  spans: wholeCircle('unsettled'),
};
