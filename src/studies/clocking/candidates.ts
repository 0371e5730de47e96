import { type Axis, type LeastMargin, lesser } from './axis.ts';
import { ANGLES } from './profile.ts';
import { isInRegion, type Region, type RegionAxes } from './region.ts';
import { type Arc, isInArc, wrapDeg } from './spans.ts';
import type { Clockings } from './studyPairs.ts';

/** A clocking of caliper and hub with the locally largest margin. */
export interface Candidate extends Clockings {
  /** The smallest margin of all pairs that depend on a clocking. */
  least: LeastMargin;
  /** Index of its region. */
  region: number;
}

export interface CandidateOptions {
  /** Smallest distance between candidates of one region in one of the clockings, degrees. */
  apartDeg: number;
  most: number;
  drawn: Clockings;
  /** Period of the hub: a turn by this angle gives the same arrangement. */
  hubPeriodDeg: number;
}

/** The smallest margin at two clockings. */
export const leastAt = (
  { caliper, hub, between }: Pick<RegionAxes, 'caliper' | 'hub' | 'between'>,
  { caliperDeg, hubDeg }: Clockings,
): LeastMargin => lesser(lesser(caliper.at(caliperDeg), hub.at(hubDeg)), between.at(caliperDeg - hubDeg));

/**
 * The best clockings, best first. Each is a local maximum of the margin, and is in another region than those before
 * it or at a distance from them. Candidates are whole degrees and the middles of arcs that contain none. Of clockings
 * with the same margin, the one nearest to the clocking of the file comes first.
 */
export function candidatesOf(
  axes: RegionAxes,
  regions: readonly Region[],
  options: CandidateOptions,
): Candidate[] {
  const { apartDeg, most, drawn, hubPeriodDeg } = options;
  const feasible = feasibleClockings(axes, regions, options);
  const turnFromDrawn = (one: Clockings): number =>
    Math.max(apart(one.caliperDeg, drawn.caliperDeg, 360), apart(one.hubDeg, drawn.hubDeg, hubPeriodDeg));
  feasible.sort((a, b) => b.least.marginMm - a.least.marginMm || turnFromDrawn(a) - turnFromDrawn(b));
  const found: Candidate[] = [];
  /** Regions that a turn by whole periods of the hub maps onto each other are one arrangement. */
  const periods = Array.from({ length: Math.round(360 / hubPeriodDeg) }, (_, k) => k * hubPeriodDeg);
  const areInOneRegion = (one: Candidate, other: Candidate) =>
    periods.some((deg) => isInRegion(regions[one.region], other.caliperDeg, other.hubDeg + deg));
  const isNear = (one: Candidate, other: Candidate) =>
    areInOneRegion(one, other) &&
    apart(one.caliperDeg, other.caliperDeg, 360) <= apartDeg &&
    apart(one.hubDeg, other.hubDeg, hubPeriodDeg) <= apartDeg;
  const best = bestNearby(feasible);
  for (const one of feasible) {
    if (found.length === most) break;
    const isSame = found.some(
      (other) =>
        isNear(one, other) ||
        (apart(one.caliperDeg, other.caliperDeg, 360) < 0.5 &&
          apart(one.hubDeg, other.hubDeg, hubPeriodDeg) < 0.5),
    );
    if (!isSame && best(one)) found.push(one);
  }
  return found;
}

/** Angular distance of two angles on a circle of `period` degrees. */
const apart = (one: number, other: number, period: number): number => {
  const past = (((one - other) % period) + period) % period;
  return Math.min(past, period - past);
};

function feasibleClockings(
  axes: RegionAxes,
  regions: readonly Region[],
  { drawn, hubPeriodDeg }: CandidateOptions,
): Candidate[] {
  const hubFree = axes.hub.isFree && axes.between.isFree;
  const caliper = anglesOf(axes.caliper, axes.caliperAllowed, drawn.caliperDeg);
  const isHubUnrestricted =
    axes.hubAllowed.length === 1 && axes.hubAllowed[0].toDeg - axes.hubAllowed[0].fromDeg >= 360;
  const oneTurn = (deg: number) => !isHubUnrestricted || (deg >= -hubPeriodDeg / 2 && deg < hubPeriodDeg / 2);
  const hub =
    hubFree && isAllowed(axes.hubAllowed, drawn.hubDeg)
      ? [drawn.hubDeg]
      : anglesOf(axes.hub, axes.hubAllowed, drawn.hubDeg).filter(oneTurn);
  const narrow = narrowMiddles(axes.between.arcs);
  const found = new Map<string, Candidate>();
  const add = (caliperDeg: number, hubDeg: number): void => {
    if (!axes.between.clearsAt(caliperDeg - hubDeg)) return;
    const region = regions.findIndex((one) => isInRegion(one, caliperDeg, hubDeg));
    if (region < 0) return;
    const clockings = { caliperDeg: wrapDeg(caliperDeg), hubDeg: wrapDeg(hubDeg) };
    found.set(`${clockings.caliperDeg} ${clockings.hubDeg}`, {
      ...clockings,
      least: leastAt(axes, clockings),
      region,
    });
  };
  for (const a of caliper) {
    for (const b of hub) add(a, b);
    for (const c of narrow) {
      const b = wrapDeg(a - c);
      if (oneTurn(b) && axes.hub.clearsAt(b) && isAllowed(axes.hubAllowed, b)) add(a, b);
    }
  }
  return [...found.values()];
}

const isAllowed = (allowed: readonly Arc[], deg: number): boolean => allowed.some((arc) => isInArc(arc, deg));

/**
 * Allowed angles at which an axis clears: whole degrees, the clocking of the file, and the middles of arcs without a
 * whole degree.
 */
function anglesOf(axis: Axis, allowed: readonly Arc[], drawnDeg: number): number[] {
  const angles = [...ANGLES, wrapDeg(drawnDeg), ...narrowMiddles(axis.arcs), ...narrowMiddles(allowed)];
  return angles.filter((deg) => axis.clearsAt(deg) && isAllowed(allowed, deg));
}

/** The middles of arcs without a whole degree, rounded to a tenth or a thousandth if the result is still in the arc. */
function narrowMiddles(arcs: readonly Arc[]): number[] {
  return arcs
    .filter(({ fromDeg, toDeg }) => Math.ceil(fromDeg) > toDeg)
    .map((arc) => {
      const middle = (arc.fromDeg + arc.toDeg) / 2;
      const rounded = [10, 1000].map((parts) => Math.round(middle * parts) / parts);
      return rounded.find((deg) => isInArc(arc, deg)) ?? middle;
    });
}

/** Creates a test whether no clocking one degree away, in either or both angles, has a larger margin. */
function bestNearby(feasible: readonly Candidate[]): (one: Candidate) => boolean {
  const marginOf = new Map(
    feasible.map(({ caliperDeg, hubDeg, least }) => [`${caliperDeg} ${hubDeg}`, least.marginMm]),
  );
  const steps = [-1, 0, 1];
  return ({ caliperDeg, hubDeg, least }) =>
    steps.every((da) =>
      steps.every((db) => {
        const beside = marginOf.get(`${wrapDeg(caliperDeg + da)} ${wrapDeg(hubDeg + db)}`);
        return beside === undefined || beside <= least.marginMm;
      }),
    );
}
