import type { LeastMargin } from './axis.ts';
import { leastAt } from './candidates.ts';
import { ANGLES } from './profile.ts';
import { type RegionAxes, regionsOf } from './region.ts';
import { type Arc, isInArc } from './spans.ts';
import type { Clockings } from './studyPairs.ts';
import { commonArcs, type WantedArc, type WantName } from './wants.ts';

/** Wants that no clocking meets. */
export interface Unmet {
  /** One want, or those that cannot be met together though each can alone; none where nothing clears at all. */
  wants: readonly WantName[];
  /** Whether the wants contradict each other, whatever the parts are. */
  contradiction: boolean;
  /** Where least is missing, with the pair that forbids it and its margin there; undefined for a contradiction. */
  best: { clockings: Clockings; least: LeastMargin } | undefined;
}

/**
 * What no clocking meets: each want that cannot be met even alone; where all can, all of them together if that cannot be.
 */
export function unmetWants(axes: RegionAxes, wanted: readonly WantedArc[]): Unmet[] {
  if (isMet(axes, [])) {
    const alone = wanted.filter((one) => !isMet(axes, [one]));
    if (alone.length > 0) return alone.map((one) => unmet(axes, [one]));
    return wanted.length > 0 && !isMet(axes, wanted) ? [unmet(axes, wanted)] : [];
  }
  return [unmet(axes, [])];
}

const withWants = (axes: RegionAxes, wanted: readonly WantedArc[]): RegionAxes => ({
  ...axes,
  caliperWanted: commonArcs(wanted, 'caliper'),
  hubWanted: commonArcs(wanted, 'hub'),
});

const isMet = (axes: RegionAxes, wanted: readonly WantedArc[]): boolean =>
  regionsOf(withWants(axes, wanted)).length > 0;

function unmet(axes: RegionAxes, wanted: readonly WantedArc[]): Unmet {
  const { caliperWanted, hubWanted } = withWants(axes, wanted);
  const calipers = samples(caliperWanted);
  const hubs = axes.hub.isFree && axes.between.isFree ? samples(hubWanted).slice(0, 1) : samples(hubWanted);
  let best: Unmet['best'];
  for (const caliperDeg of calipers) {
    for (const hubDeg of hubs) {
      const least = leastAt(axes, { caliperDeg, hubDeg });
      if (best === undefined || least.marginMm > best.least.marginMm)
        best = { clockings: { caliperDeg, hubDeg }, least };
    }
  }
  return { wants: wanted.map(({ want }) => want), contradiction: best === undefined, best };
}

/** Whole degrees of arcs, and their ends and middles. */
const samples = (arcs: readonly Arc[]): number[] => [
  ...ANGLES.filter((deg) => arcs.some((arc) => isInArc(arc, deg))),
  ...arcs
    .filter(({ fromDeg, toDeg }) => toDeg - fromDeg < 360)
    .flatMap(({ fromDeg, toDeg }) => [fromDeg, (fromDeg + toDeg) / 2, toDeg]),
];
