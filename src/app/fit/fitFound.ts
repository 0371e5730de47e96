import type { Design } from '../../design/design.ts';
import type { Axis, LeastMargin } from '../../studies/clocking/axis.ts';
import { type CaliperFigures, caliperFigures } from '../../studies/clocking/figures.ts';
import { ANGLES } from '../../studies/clocking/profile.ts';
import type { Region } from '../../studies/clocking/region.ts';
import { type Arc, isInArc } from '../../studies/clocking/spans.ts';
import { type ClockingStudy, marginsAt } from '../../studies/clocking/study.ts';
import type { Clockings } from '../../studies/clocking/studyPairs.ts';
import type { Unmet } from '../../studies/clocking/unmet.ts';
import type { FitAxis, FitPicture } from './fitPicture.ts';

/** A candidate with what is told of it. */
export interface FitCandidate extends Clockings, CaliperFigures {
  least: LeastMargin;
  /** Between caliper and lower arm, mm at ride height; undefined without a lower arm, or where it is no number. */
  lowerArm: { clearanceMm: number; errorMm: number } | undefined;
}

/** What the screen shows of a study. */
export interface FitFound {
  picture: FitPicture;
  /** Labels of both parts of each pair of the study. */
  pairs: readonly (readonly [string, string])[];
  candidates: readonly FitCandidate[];
  regions: readonly Region[];
  unmet: readonly Unmet[];
  /** Least margin of the pairs that no clocking changes. */
  unchanging: LeastMargin;
}

/**
 * What the study of a corner hangs on: its file without the clockings that the study turns through. A corner that is only
 * turned has the same study.
 */
export function fitKey({ source }: Pick<Design, 'source'>): string {
  return JSON.stringify(source, function (key, value) {
    const { kind } = this as { kind?: unknown };
    return key === 'clockingDeg' && (kind === 'caliper' || kind === 'hub') ? undefined : value;
  });
}

export function foundOf(study: ClockingStudy, { corner }: Pick<Design, 'corner'>): FitFound {
  const { axes, pairs, candidates, regions, unmet, unchanging } = study;
  const lowerArm = pairs.findIndex(({ ids }) => isCaliperAndLowerArm(ids, corner.parts));
  return {
    picture: {
      caliper: fitAxis(axes.caliper),
      hub: fitAxis(axes.hub),
      between: fitAxis(axes.between),
      caliperWanted: allowedAt(axes.caliperWanted),
      hubWanted: allowedAt(axes.hubWanted),
    },
    pairs: pairs.map(({ names }) => names),
    candidates: candidates.map(({ caliperDeg, hubDeg, least }) => {
      const margin = lowerArm < 0 ? undefined : marginsAt(study, { caliperDeg, hubDeg })[lowerArm];
      const wantedMm = lowerArm < 0 ? 0 : pairs[lowerArm].targetMm + pairs[lowerArm].allowanceMm;
      return {
        caliperDeg,
        hubDeg,
        least,
        ...caliperFigures(corner, caliperDeg),
        lowerArm:
          margin !== undefined && Number.isFinite(margin.marginMm)
            ? { clearanceMm: margin.marginMm + wantedMm, errorMm: margin.errorMm }
            : undefined,
      };
    }),
    regions,
    unmet,
    unchanging,
  };
}

function isCaliperAndLowerArm(ids: readonly string[], parts: Design['corner']['parts']): boolean {
  const [one, other] = ids.map((id) => parts.find((part) => part.id === id));
  const isLower = (part: typeof one) => part?.kind === 'controlArm' && part.arm === 'lower';
  return (one?.kind === 'caliper' && isLower(other)) || (other?.kind === 'caliper' && isLower(one));
}

function fitAxis(axis: Axis): FitAxis {
  const least = ANGLES.map((deg) => axis.at(deg));
  return {
    marginMm: Float64Array.from(least, ({ marginMm }) => marginMm),
    limitedBy: Int32Array.from(least, ({ limitedBy }) => limitedBy),
    clears: Uint8Array.from(ANGLES, (deg) => Number(axis.clearsAt(deg))),
  };
}

const allowedAt = (arcs: readonly Arc[]): Uint8Array =>
  Uint8Array.from(ANGLES, (deg) => Number(arcs.some((arc) => isInArc(arc, deg))));
