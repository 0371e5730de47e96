import { type LeastMargin, lesser } from '../../../studies/clocking/axis.ts';
import { ANGLES, angleIndex } from '../../../studies/clocking/profile.ts';
import { type SpanState, worse, wrapDeg } from '../../../studies/clocking/spans.ts';
import type { Clockings } from '../../../studies/clocking/studyPairs.ts';

/** All pairs that depend on one angle, at each of `ANGLES`. */
export interface FitAxis {
  least: readonly LeastMargin[];
  states: readonly SpanState[];
}

/** What a map of caliper and hub clocking shows. */
export interface FitPicture {
  caliper: FitAxis;
  hub: FitAxis;
  /** Pairs that depend on the caliper's clocking minus the hub's. */
  between: FitAxis;
  /** Whether the requirements allow each of `ANGLES`. */
  caliperAllowed: readonly boolean[];
  hubAllowed: readonly boolean[];
  /** Whether the study is done. Until then the map shows estimates. */
  isProved: boolean;
}

export interface FitCell {
  least: LeastMargin;
  state: SpanState;
  isWanted: boolean;
  isProved: boolean;
}

/** State of the map at two clockings, to the nearest degree. */
export function cellAt(picture: FitPicture, { caliperDeg, hubDeg }: Clockings): FitCell {
  const { caliper, hub, between, caliperAllowed, hubAllowed, isProved } = picture;
  const [a, b] = [angleIndex(caliperDeg), angleIndex(hubDeg)];
  const c = angleIndex(Math.round(caliperDeg) - Math.round(hubDeg));
  return {
    least: lesser(lesser(caliper.least[a], hub.least[b]), between.least[c]),
    state: worse(worse(caliper.states[a], hub.states[b]), between.states[c]),
    isWanted: caliperAllowed[a] && hubAllowed[b],
    isProved,
  };
}

/** Clocking at a fraction of the way along the map's edge, to the nearest degree. */
export const clockingAt = (fraction: number): number =>
  ANGLES[Math.max(0, Math.min(ANGLES.length - 1, Math.floor(fraction * ANGLES.length)))];

/** Fraction of the way along the map's edge of a clocking. */
export const fractionAt = (deg: number): number => (wrapDeg(deg) + 180.5) / ANGLES.length;
