import type { Design } from '../../design/design.ts';
import type { Axis, LeastMargin } from '../../studies/clocking/axis.ts';
import type { Candidate } from '../../studies/clocking/candidates.ts';
import { type ArmDistance, lowerArmDistance } from '../../studies/clocking/lowerArm.ts';
import { ANGLES } from '../../studies/clocking/profile.ts';
import type { RegionAxes } from '../../studies/clocking/region.ts';
import { type Arc, isInArc, stateAt } from '../../studies/clocking/spans.ts';
import type { ClockingStudy, SeenSoFar } from '../../studies/clocking/study.ts';
import type { Unmet } from '../../studies/clocking/unmet.ts';
import type { Setup } from '../../sweep/setUp.ts';
import type { FitAxis, FitPicture } from './fitPicture.ts';

/** What the screen shows of a study. */
export interface FitFound {
  picture: FitPicture;
  /** Labels of both parts of each pair of the study. */
  pairs: readonly (readonly [string, string])[];
  /** Best first, each with how far the caliper then is from the lower arm. */
  candidates: readonly (Candidate & { toLowerArm: ArmDistance | undefined })[];
  unmet: readonly Unmet[];
  /** Least margin of the pairs that no clocking changes. */
  unchanging: LeastMargin;
}

/** What the screen shows of a study that is not done. */
export interface FitSeen extends Pick<FitFound, 'picture' | 'pairs'> {
  /** Pairs that are proved, of all pairs. */
  done: number;
  total: number;
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

/** A study as it is shown. `setup`: the corner that was studied. */
export function foundOf(study: ClockingStudy, setup: Setup): FitFound {
  const { axes, pairs, candidates, unmet, unchanging } = study;
  const toLowerArm = lowerArmDistance(setup);
  return {
    picture: pictureOf(axes, true),
    pairs: pairs.map(({ names }) => names),
    candidates: candidates.map((candidate) => ({
      ...candidate,
      toLowerArm: toLowerArm(candidate.caliperDeg),
    })),
    unmet,
    unchanging,
  };
}

/** What is seen of a study, as it is shown. */
export const seenOf = ({ axes, pairs, done, total }: SeenSoFar): FitSeen => ({
  picture: pictureOf(axes, false),
  pairs: pairs.map(({ names }) => names),
  done,
  total,
});

const pictureOf = (axes: RegionAxes, isProved: boolean): FitPicture => ({
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
