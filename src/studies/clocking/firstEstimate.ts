import { ANGLES, type Profile, repeatsOf, type Turned } from './profile.ts';
import { append, FIRST_DEG, type Span, WHOLE_DEG, wholeCircle } from './spans.ts';
import type { MarginEstimate } from './turningPair.ts';

/** Step between the angles of a first estimate, degrees. */
export const ESTIMATE_STEP_DEG = 10;

/** Estimates of a pair's margin every ESTIMATE_STEP_DEG degrees from -180, over one period of the pair. */
export type FirstEstimate = readonly MarginEstimate[];

/** Estimates a pair's margin over its period, without a proof and without values between the angles. */
export const firstEstimateOf = (pair: Turned): FirstEstimate =>
  ANGLES.slice(0, repeatsOf(pair))
    .filter((_, k) => k % ESTIMATE_STEP_DEG === 0)
    .map((deg) => pair.estimate(deg));

/** Converts a first estimate into a profile, with the nearest estimate at each angle. Nothing in it is proved. */
export function estimatedProfile(pair: Turned, estimates: FirstEstimate): Profile {
  const repeats = repeatsOf(pair);
  const estimateAt = (k: number): MarginEstimate =>
    estimates[Math.round((k % repeats) / ESTIMATE_STEP_DEG) % estimates.length];
  const spans: Span[] = [];
  for (let k = 0; k < WHOLE_DEG; k++)
    append(spans, { fromDeg: FIRST_DEG + k, toDeg: FIRST_DEG + k + 1, state: estimateAt(k).state });
  return {
    marginMm: Float64Array.from(ANGLES, (_, k) => estimateAt(k).marginMm),
    errorMm: new Float64Array(ANGLES.length).fill(Number.NaN),
    spans,
  };
}

/** Profile of a pair without an estimate. */
export const NO_ESTIMATE: Profile = {
  marginMm: new Float64Array(ANGLES.length).fill(Number.NaN),
  errorMm: new Float64Array(ANGLES.length).fill(Number.NaN),
  spans: wholeCircle('unsettled'),
};
