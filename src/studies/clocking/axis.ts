import { ANGLES, angleIndex, type Measurable, type Profile, profileOf } from './profile.ts';
import { type Arc, arcsOf, isWhole, type Span, stateAt, together, wrapDeg } from './spans.ts';

/** A pair with its margin over the whole circle. */
export interface ProfiledPair {
  /** Index into the pairs of the study. */
  index: number;
  pair: Measurable;
  profile: Profile;
}

/** The smallest margin of several pairs at one angle. */
export interface LeastMargin {
  /** +Infinity if there are no pairs or all are beyond the limit; NaN if one is unknown. */
  marginMm: number;
  errorMm: number;
  /** Index into the pairs of the study; -1 if no pair limits. */
  limitedBy: number;
}

const UNLIMITED: LeastMargin = { marginMm: Number.POSITIVE_INFINITY, errorMm: Number.NaN, limitedBy: -1 };

/** The smaller of two margins; an unknown margin counts as the smaller. */
export const lesser = (one: LeastMargin, other: LeastMargin): LeastMargin =>
  Number.isNaN(one.marginMm) || one.marginMm <= other.marginMm ? one : other;

/** An end of an arc in which all pairs clear, with the pairs that do not, or are not proved to, just beyond it. */
export interface Limit {
  deg: number;
  /** Indices into the pairs of the study. */
  limitedBy: readonly number[];
}

/** All pairs that depend on the same angle. */
export class Axis {
  readonly spans: readonly Span[];
  private readonly pairs: readonly ProfiledPair[];
  private readonly least: readonly LeastMargin[];
  private readonly measured = new Map<number, LeastMargin>();

  constructor(pairs: readonly ProfiledPair[]) {
    this.pairs = pairs;
    this.spans = together(pairs.map(({ profile }) => profile.spans));
    this.least = ANGLES.map((_, k) =>
      pairs.reduce<LeastMargin>(
        (least, { index, profile }) =>
          lesser(least, {
            marginMm: profile.marginMm[k],
            errorMm: profile.errorMm[k],
            limitedBy: index,
          }),
        UNLIMITED,
      ),
    );
  }

  /** Whether no pair depends on this angle, so that every value is possible. */
  get isFree(): boolean {
    return this.pairs.length === 0;
  }

  /** The smallest margin at an angle. At an angle that is not a whole degree it is measured and cached. */
  at(deg: number): LeastMargin {
    const wrapped = wrapDeg(deg);
    if (Number.isInteger(wrapped)) return this.least[angleIndex(wrapped)];
    const known = this.measured.get(wrapped);
    if (known !== undefined) return known;
    const found = this.pairs.reduce<LeastMargin>((least, { index, pair }) => {
      const { marginMm, errorMm } = pair.at(wrapped);
      return lesser(least, { marginMm, errorMm, limitedBy: index });
    }, UNLIMITED);
    this.measured.set(wrapped, found);
    return found;
  }

  /** Whether all pairs are proved to keep their margins at an angle. */
  clearsAt(deg: number): boolean {
    return stateAt(this.spans, deg) === 'clears';
  }

  /** The arcs in which all pairs are proved to keep their margins. */
  get arcs(): Arc[] {
    return arcsOf(this.spans, 'clears');
  }

  /** The limits of an arc of `arcs` at both ends; undefined for a whole circle. */
  limitsOf(arc: Arc): { from: Limit; to: Limit } | undefined {
    if (isWhole(arc)) return undefined;
    return {
      from: { deg: arc.fromDeg, limitedBy: this.notClearAt(arc.fromDeg - JUST_BEYOND_DEG) },
      to: { deg: arc.toDeg, limitedBy: this.notClearAt(arc.toDeg + JUST_BEYOND_DEG) },
    };
  }

  private notClearAt(deg: number): number[] {
    return this.pairs
      .filter(({ profile }) => stateAt(profile.spans, deg) !== 'clears')
      .map(({ index }) => index);
  }
}

/** Smaller than the narrowest span. */
const JUST_BEYOND_DEG = 1e-3;

export const profiled = (index: number, pair: Measurable): ProfiledPair => ({
  index,
  pair,
  profile: profileOf(pair),
});
