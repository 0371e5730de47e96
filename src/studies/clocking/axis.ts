import { ANGLES, angleIndex, type Measurable, type Profile, profileOf } from './profile.ts';
import { type Arc, arcsOf, isWhole, type Span, stateAt, together, wrapDeg } from './spans.ts';

/** A pair with its margin over the whole circle. */
export interface ProfiledPair {
  /** Index into the pairs of the study. */
  index: number;
  pair: Measurable;
  profile: Profile;
}

/** The least margin of several pairs at one angle. */
export interface LeastMargin {
  /** +Infinity where there are no pairs or all are beyond, NaN where one cannot be told. */
  marginMm: number;
  errorMm: number;
  /** Index into the pairs of the study; -1 where no pair limits. */
  limitedBy: number;
}

const UNLIMITED: LeastMargin = { marginMm: Number.POSITIVE_INFINITY, errorMm: Number.NaN, limitedBy: -1 };

/** The lesser of two margins; one that cannot be told is the lesser of any two. */
export const lesser = (one: LeastMargin, other: LeastMargin): LeastMargin =>
  Number.isNaN(one.marginMm) || one.marginMm <= other.marginMm ? one : other;

/** An end of an arc in which all pairs clear: the pairs that no longer do, or are not proved to, just beyond it. */
export interface Limit {
  deg: number;
  /** Indices into the pairs of the study. */
  limitedBy: readonly number[];
}

/** All pairs that follow one angle. */
export class Axis {
  readonly spans: readonly Span[];
  private readonly pairs: readonly ProfiledPair[];
  private readonly least: readonly LeastMargin[];
  private readonly between = new Map<number, LeastMargin>();

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

  /** Whether no pair follows this angle, so that it may be anything. */
  get isFree(): boolean {
    return this.pairs.length === 0;
  }

  /** The least margin at an angle; at one that is no whole degree it is measured and kept. */
  at(deg: number): LeastMargin {
    const wrapped = wrapDeg(deg);
    if (Number.isInteger(wrapped)) return this.least[angleIndex(wrapped)];
    const known = this.between.get(wrapped);
    if (known !== undefined) return known;
    const found = this.pairs.reduce<LeastMargin>((least, { index, pair }) => {
      const { marginMm, errorMm } = pair.at(wrapped);
      return lesser(least, { marginMm, errorMm, limitedBy: index });
    }, UNLIMITED);
    this.between.set(wrapped, found);
    return found;
  }

  /** Whether all pairs are proved to keep their margins at an angle. */
  clearsAt(deg: number): boolean {
    return stateAt(this.spans, deg) === 'clears';
  }

  /** Where all pairs are proved to keep their margins. */
  get arcs(): Arc[] {
    return arcsOf(this.spans, 'clears');
  }

  /** What ends an arc of `arcs` at either side; nothing of a whole circle. */
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

/** Less than the narrowest span. */
const JUST_BEYOND_DEG = 1e-3;

export const profiled = (index: number, pair: Measurable): ProfiledPair => ({
  index,
  pair,
  profile: profileOf(pair),
});
