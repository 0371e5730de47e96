import { type Axis, type LeastMargin, lesser } from './axis.ts';
import { ANGLES } from './profile.ts';
import { isInRegion, type Region, type RegionAxes } from './region.ts';
import { type Arc, isInArc, wrapDeg } from './spans.ts';
import type { Clockings } from './studyPairs.ts';

/** A clocking of caliper and hub, as good as any near it. */
export interface Candidate extends Clockings {
  /** Least of the margins that follow a clocking there. */
  least: LeastMargin;
  /** Index of its region. */
  region: number;
}

export interface CandidateOptions {
  /** Candidates of one region are further apart than this in one of the clockings, degrees. */
  apartDeg: number;
  most: number;
  drawn: Clockings;
  /** A turn of the hub by so much is no other arrangement. */
  hubPeriodDeg: number;
}

/** The least margin at two clockings. */
export const leastAt = (
  { caliper, hub, between }: Pick<RegionAxes, 'caliper' | 'hub' | 'between'>,
  { caliperDeg, hubDeg }: Clockings,
): LeastMargin => lesser(lesser(caliper.at(caliperDeg), hub.at(hubDeg)), between.at(caliperDeg - hubDeg));

/**
 * The best clockings, best first: each the best of what is near it, and either in another region than those before it or
 * further from them. Whole degrees, and the middle of each arc too narrow to hold one. Among clockings of the same margin
 * the one nearest to what is drawn comes first.
 */
export function candidatesOf(
  axes: RegionAxes,
  regions: readonly Region[],
  options: CandidateOptions,
): Candidate[] {
  const { apartDeg, most, drawn, hubPeriodDeg } = options;
  const feasible = feasibleClockings(axes, regions, options);
  const turned = (one: Clockings): number =>
    Math.max(apart(one.caliperDeg, drawn.caliperDeg, 360), apart(one.hubDeg, drawn.hubDeg, hubPeriodDeg));
  feasible.sort((a, b) => b.least.marginMm - a.least.marginMm || turned(a) - turned(b));
  const found: Candidate[] = [];
  /** Regions that a whole period of the hub turns into one another are one arrangement. */
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

/** The angle between two, of a circle of `period` degrees. */
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
  const caliper = anglesOf(axes.caliper, axes.caliperWanted, drawn.caliperDeg);
  const within = axes.hubWanted.length === 1 && axes.hubWanted[0].toDeg - axes.hubWanted[0].fromDeg >= 360;
  const oneTurn = (deg: number) => !within || (deg >= -hubPeriodDeg / 2 && deg < hubPeriodDeg / 2);
  const hub =
    hubFree && allows(axes.hubWanted, drawn.hubDeg)
      ? [drawn.hubDeg]
      : anglesOf(axes.hub, axes.hubWanted, drawn.hubDeg).filter(oneTurn);
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
      if (oneTurn(b) && axes.hub.clearsAt(b) && allows(axes.hubWanted, b)) add(a, b);
    }
  }
  return [...found.values()];
}

const allows = (wanted: readonly Arc[], deg: number): boolean => wanted.some((arc) => isInArc(arc, deg));

/** Whole degrees, the one drawn, and the middles of arcs too narrow to hold one, where an axis clears and all is wanted. */
function anglesOf(axis: Axis, wanted: readonly Arc[], drawnDeg: number): number[] {
  const angles = [...ANGLES, wrapDeg(drawnDeg), ...narrowMiddles(axis.arcs), ...narrowMiddles(wanted)];
  return angles.filter((deg) => axis.clearsAt(deg) && allows(wanted, deg));
}

/** The middles of arcs without a whole degree, to a tenth or a thousandth where that is still inside. */
function narrowMiddles(arcs: readonly Arc[]): number[] {
  return arcs
    .filter(({ fromDeg, toDeg }) => Math.ceil(fromDeg) > toDeg)
    .map((arc) => {
      const middle = (arc.fromDeg + arc.toDeg) / 2;
      const rounded = [10, 1000].map((parts) => Math.round(middle * parts) / parts);
      return rounded.find((deg) => isInArc(arc, deg)) ?? middle;
    });
}

/** Tells whether nothing a degree away, in either clocking or both, is better. */
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
