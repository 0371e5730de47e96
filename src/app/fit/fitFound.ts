import type { Design } from '../../design/design.ts';
import type { Axis, LeastMargin } from '../../studies/clocking/axis.ts';
import { type CaliperFigures, caliperFigures } from '../../studies/clocking/figures.ts';
import { type ArmDistance, lowerArmDistance } from '../../studies/clocking/lowerArm.ts';
import { ANGLES } from '../../studies/clocking/profile.ts';
import type { RegionAxes } from '../../studies/clocking/region.ts';
import { type Arc, isInArc, stateAt } from '../../studies/clocking/spans.ts';
import type { SeenSoFar } from '../../studies/clocking/study.ts';
import type { MountedCandidate, MountingsStudy, UnmetByAll } from '../../studies/clocking/studyMountings.ts';
import type { Unmet } from '../../studies/clocking/unmet.ts';
import type { Setup } from '../../sweep/setUp.ts';
import type { FitAxis, FitPicture } from './fitPicture.ts';

/** What the screen shows of the study of one mounting. */
export interface FoundMounting {
  /** See `fitKey`. */
  key: string;
  picture: FitPicture;
  /** Labels of both parts of each pair of the study. */
  pairs: readonly (readonly [string, string])[];
  unmet: readonly Unmet[];
  /** Least margin of the pairs that no clocking changes. */
  unchanging: LeastMargin;
}

/** A candidate of one of the mountings, with where the caliper then stands, and how far from the lower arm. */
export interface FoundCandidate extends MountedCandidate {
  stands: CaliperFigures;
  toLowerArm: ArmDistance | undefined;
}

/** What the screen shows of a study. */
export interface FitFound {
  mounted: readonly FoundMounting[];
  /** Of all mountings together, best first. */
  candidates: readonly FoundCandidate[];
  /** Wants that no mounting meets. */
  unmet: readonly UnmetByAll[];
}

/** What the screen shows of the study of a mounting that is not done. */
export interface FitSeen extends Pick<FoundMounting, 'key' | 'picture' | 'pairs'> {
  /** Pairs that are proved, of all pairs. */
  done: number;
  total: number;
}

/**
 * Key of the study of a corner: everything in the corner except the two clockings, which the study varies, and the lists of
 * assumed values, which a turned clocking leaves. A corner that is only turned keeps its study.
 */
export function fitKey({ corner }: Pick<Design, 'corner'>): string {
  return JSON.stringify(corner, function (key, value) {
    const { kind } = this as { kind?: unknown };
    if (key === 'assumed') return undefined;
    return key === 'clockingDeg' && (kind === 'caliper' || kind === 'hub') ? undefined : value;
  });
}

/** Names the pairs of a mounting. */
export const nameIn =
  ({ pairs }: Pick<FoundMounting, 'pairs'>) =>
  (pair: number): string =>
    (pairs[pair] ?? []).join(' ↔ ');

/** A study as it is shown. */
export function foundOf({ mounted, candidates, unmet }: MountingsStudy): FitFound {
  const arms = mounted.map(({ setup }) => lowerArmDistance(setup));
  return {
    mounted: mounted.map(({ setup, study }) => ({
      key: fitKey(setup.design),
      picture: pictureOf(study.axes, true),
      pairs: study.pairs.map(({ names }) => names),
      unmet: study.unmet,
      unchanging: study.unchanging,
    })),
    candidates: candidates.map((candidate) => ({
      ...candidate,
      stands: caliperFigures(mounted[candidate.mounting].setup.design.corner, candidate.caliperDeg),
      toLowerArm: arms[candidate.mounting](candidate.caliperDeg),
    })),
    unmet,
  };
}

/** What is seen of a study, as it is shown. */
export const seenOf = ({ axes, pairs, done, total }: SeenSoFar, { design }: Setup): FitSeen => ({
  key: fitKey(design),
  picture: pictureOf(axes, false),
  pairs: pairs.map(({ names }) => names),
  done,
  total,
});

export const pictureOf = (axes: RegionAxes, isProved: boolean): FitPicture => ({
  caliper: fitAxis(axes.caliper),
  hub: fitAxis(axes.hub),
  between: fitAxis(axes.between),
  caliperWanted: allowedAt(axes.caliperWanted),
  hubWanted: allowedAt(axes.hubWanted),
  isProved,
});

const fitAxis = (axis: Axis): FitAxis => ({
  least: ANGLES.map((deg) => axis.at(deg)),
  states: ANGLES.map((deg) => stateAt(axis.spans, deg)),
});

const allowedAt = (arcs: readonly Arc[]): boolean[] =>
  ANGLES.map((deg) => arcs.some((arc) => isInArc(arc, deg)));
