import type { Design } from '../../../design/design.ts';
import { MARKS } from '../../../design/marks.ts';
import type { Axis, LeastMargin } from '../../../studies/clocking/axis.ts';
import { type CaliperFigures, caliperFigures } from '../../../studies/clocking/figures.ts';
import { type ArmDistance, lowerArmDistance } from '../../../studies/clocking/lowerArm.ts';
import { ANGLES } from '../../../studies/clocking/profile.ts';
import type { RegionAxes } from '../../../studies/clocking/region.ts';
import { type Arc, isInArc, stateAt } from '../../../studies/clocking/spans.ts';
import type { StudyPreview } from '../../../studies/clocking/study.ts';
import type {
  MountedCandidate,
  MountingsStudy,
  UnmetByAll,
} from '../../../studies/clocking/studyMountings.ts';
import type { Unmet } from '../../../studies/clocking/unmet.ts';
import { pairLabelFrom } from '../../../sweep/pair.ts';
import type { Setup } from '../../../sweep/setUp.ts';
import type { FitAxis, FitPicture } from './fitPicture.ts';

/** Study of one mounting for the screen. */
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

/** A candidate of one of the mountings, with the figures of its caliper and the distance to the lower arm. */
export interface FoundCandidate extends MountedCandidate {
  caliper: CaliperFigures;
  toLowerArm: ArmDistance | undefined;
}

/** Study for the screen. */
export interface FitFound {
  mounted: readonly FoundMounting[];
  /** Of all mountings together, best first. */
  candidates: readonly FoundCandidate[];
  /** Requirements that no mounting meets. */
  unmet: readonly UnmetByAll[];
}

/** Preview of the study of a mounting, before it is done. */
export interface FitPreview extends Pick<FoundMounting, 'key' | 'picture' | 'pairs'> {
  /** Pairs that are proved, of all pairs. */
  done: number;
  total: number;
}

/**
 * Key of the study of a corner: everything in the corner except the two clockings, which the study varies, and the marks of
 * values, which affect no result. A corner that is only turned keeps its study.
 */
export function fitKey({ corner }: Pick<Design, 'corner'>): string {
  return JSON.stringify(corner, function (key, value) {
    const { kind } = this as { kind?: unknown };
    if (MARKS.has(key)) return undefined;
    return key === 'clockingDeg' && (kind === 'caliper' || kind === 'hub') ? undefined : value;
  });
}

/** Names the pairs of a mounting. */
export const nameIn =
  ({ pairs }: Pick<FoundMounting, 'pairs'>) =>
  (pair: number): string =>
    pairs[pair] === undefined ? '' : pairLabelFrom(...pairs[pair]);

/** A finished study for the screen. */
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
      caliper: caliperFigures(mounted[candidate.mounting].setup.design.corner, candidate.caliperDeg),
      toLowerArm: arms[candidate.mounting](candidate.caliperDeg),
    })),
    unmet,
  };
}

/** Preview of a running study for the screen. */
export const previewOf = ({ axes, pairs, done, total }: StudyPreview, { design }: Setup): FitPreview => ({
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
  caliperAllowed: allowedAt(axes.caliperAllowed),
  hubAllowed: allowedAt(axes.hubAllowed),
  isProved,
});

const fitAxis = (axis: Axis): FitAxis => ({
  least: ANGLES.map((deg) => axis.at(deg)),
  states: ANGLES.map((deg) => stateAt(axis.spans, deg)),
});

const allowedAt = (arcs: readonly Arc[]): boolean[] =>
  ANGLES.map((deg) => arcs.some((arc) => isInArc(arc, deg)));
