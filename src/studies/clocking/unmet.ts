import type { LeastMargin } from './axis.ts';
import { leastAt } from './candidates.ts';
import { ANGLES } from './profile.ts';
import { type RegionAxes, regionsOf } from './region.ts';
import { type Arc, isInArc } from './spans.ts';
import type { Clockings } from './studyPairs.ts';
import { commonArcs, type WantedArc, type WantName } from './wants.ts';

/** Requirements that no clocking meets. */
export interface Unmet {
  /** One requirement, or those that can be met alone but not together; empty if nothing clears at all. */
  wants: readonly WantName[];
  /** Whether the requirements contradict each other for any parts. */
  contradiction: boolean;
  /** The clocking with the smallest shortfall, and the limiting pair with its margin; undefined for a contradiction. */
  best: { clockings: Clockings; least: LeastMargin } | undefined;
}

/**
 * Finds the unmet requirements: each one that cannot be met alone; if there is none, all of them together if they
 * cannot be met together.
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
  caliperAllowed: commonArcs(wanted, 'caliper'),
  hubAllowed: commonArcs(wanted, 'hub'),
});

const isMet = (axes: RegionAxes, wanted: readonly WantedArc[]): boolean =>
  regionsOf(withWants(axes, wanted)).length > 0;

function unmet(axes: RegionAxes, wanted: readonly WantedArc[]): Unmet {
  const { caliperAllowed, hubAllowed } = withWants(axes, wanted);
  const calipers = samples(caliperAllowed);
  const hubs = axes.hub.isFree && axes.between.isFree ? samples(hubAllowed).slice(0, 1) : samples(hubAllowed);
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
