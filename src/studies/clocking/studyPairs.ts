import { PairQuery } from '../../clearance/query.ts';
import type { Design } from '../../design/design.ts';
import { identity } from '../../math/rigid.ts';
import type { Zone } from '../../solids/solid.ts';
import { vehicleFromWheelAxis } from '../../solids/wheelFrame.ts';
import type { Pair } from '../../sweep/pair.ts';
import { meshBeside, type Setup } from '../../sweep/setUp.ts';
import { hubPeriodDeg } from './figures.ts';
import { isRound, isRoundZone, ridesWith, studiedCaliper, turnerOf } from './groups.ts';
import type { Glance, Turned } from './profile.ts';
import { marginOf, OPEN, type TurnedMargin, TurningPair, type TurningPairInput } from './turningPair.ts';

/**
 * The angle that a pair's margin follows: the caliper's clocking, the hub's, or the caliper's less the hub's. `none`: no
 * clocking changes it.
 */
export type About = 'caliper' | 'hub' | 'between' | 'none';

/** A pair of the study. */
export interface StudyPair {
  /** Labels of the two. */
  names: readonly [string, string];
  /** Ids of the two. */
  ids: readonly [string, string];
  about: About;
  /** Of the ways or tools of bolts, not the parts as they stand. */
  stage?: 'wayOut' | 'tool';
  targetMm: number;
  allowanceMm: number;
  /** Measured at an angle of `about`, degrees of clocking; at any angle the same for `none`. */
  pair: Turned;
}

/** Clockings of a corner as drawn, degrees; 0 for a hub that is not there. */
export interface Clockings {
  caliperDeg: number;
  hubDeg: number;
}

export function drawnClockings({ corner }: Pick<Design, 'corner'>): Clockings {
  const hub = corner.parts.find((part) => part.kind === 'hub');
  return { caliperDeg: studiedCaliper(corner).entry.clockingDeg, hubDeg: hub?.clockingDeg ?? 0 };
}

/**
 * A turn counted from a clocking as drawn; what is wanted of the pair beyond its target is no part of the margin told. The
 * pair is made ready when it is first measured.
 */
function fromDrawn(input: TurningPairInput, drawnDeg: number, leastMm: number, periodDeg: number): Turned {
  const pair = lazily(() => new TurningPair(input));
  return {
    periodDeg,
    at(deg) {
      const measured = pair().at(deg - drawnDeg);
      return { ...measured, marginMm: measured.marginMm + leastMm };
    },
    bounds: (deg, halfDeg) => pair().bounds(deg - drawnDeg, halfDeg),
    glance(deg) {
      const { marginMm, seems } = pair().glance(deg - drawnDeg);
      return { marginMm: marginMm + leastMm, seems };
    },
  };
}

/** What is made when it is first asked for. */
export function lazily<T>(make: () => T): () => T {
  let made: { it: T } | undefined;
  return () => {
    made ??= { it: make() };
    return made.it;
  };
}

/** A pair that no clocking changes; measured when it is first asked for. */
export function constantPair(measure: () => TurnedMargin, leastMm = 0): Turned {
  const margin = lazily(measure);
  const bounds = () => {
    const { errorMm } = margin();
    const marginMm = margin().marginMm - leastMm;
    if (Number.isNaN(marginMm)) return OPEN;
    const openMm = marginMm === Number.POSITIVE_INFINITY ? 0 : errorMm;
    return { lowerMm: marginMm - openMm, upperMm: marginMm + openMm };
  };
  const glance = (): Glance => {
    const { lowerMm, upperMm } = bounds();
    const seems = lowerMm >= 0 ? 'clears' : upperMm < 0 ? 'fails' : 'unsettled';
    return { marginMm: margin().marginMm, seems };
  };
  return { periodDeg: 1, at: margin, bounds, glance };
}

/** Margins are measured up to this, mm: more makes no difference to what fits, and takes longer. */
export const MOST_MARGIN_MM = 25;

/** How two solids of a pair turn against each other. */
interface Turning {
  about: About;
  /** Indices of the solids: the one that is turned, and the one that it is turned against. */
  turning: number;
  standing: number;
  /** Zones of the pair that are round about the wheel axis, that turn, and that stand. */
  round: readonly Zone[];
  riding: readonly Zone[];
  rest: readonly Zone[];
}

/** How a pair turns: of two that turn by themselves the caliper's is turned against the hub's. */
export function turningOf({ design, solids }: Setup, pair: Pair): Turning {
  const { corner } = design;
  const vehicleFromWheel = vehicleFromWheelAxis(corner.suspension);
  const [aTurns, bTurns] = [turnerOf(corner, solids[pair.a]), turnerOf(corner, solids[pair.b])];
  const isFirst = aTurns === 'caliper' || (aTurns === 'hub' && bTurns === undefined);
  const [turning, standing] = isFirst ? [pair.a, pair.b] : [pair.b, pair.a];
  const round = pair.zones.filter((zone) => isRoundZone(zone, vehicleFromWheel));
  const others = pair.zones.filter((zone) => !round.includes(zone));
  const riding = others.filter((zone) => ridesWith(solids[turning], zone));
  const both = aTurns !== undefined && bTurns !== undefined;
  // A zone that the file fixes to neither of two that turn by themselves is left out: what meets there is told.
  const rest = others.filter(
    (zone) => !riding.includes(zone) && (!both || ridesWith(solids[standing], zone)),
  );
  const isConstant = aTurns === bTurns || (isRound(solids[standing]) && rest.length === 0);
  const about = isConstant ? 'none' : both ? 'between' : (aTurns ?? bTurns ?? 'none');
  return { about, turning, standing, round, riding, rest };
}

/**
 * The pairs of a corner that concern its fit at the wheel, at ride height: those of which a body turns with caliper or
 * hub, and all other fit pairs, each with what its margin depends on. It clears where its margin is at least `leastMm`.
 */
export function studyPairs(setup: Setup, leastMm = 0): StudyPair[] {
  const { design, solids, pairs } = setup;
  const { corner } = design;
  const drawn = drawnClockings(design);
  return pairs.flatMap((pair, index): StudyPair[] => {
    const [one, other] = [solids[pair.a], solids[pair.b]];
    const turns = [one, other].some((solid) => turnerOf(corner, solid) !== undefined);
    if (pair.moves && !turns) return [];
    const wantedMm = pair.targetMm + pair.allowanceMm;
    const limitMm = wantedMm + leastMm + MOST_MARGIN_MM;
    const told = {
      names: [one.label, other.label],
      ids: [one.id, other.id],
      targetMm: pair.targetMm,
      allowanceMm: pair.allowanceMm,
    } as const;
    const { about, turning, standing, round, riding, rest } = turningOf(setup, pair);
    if (about === 'none') {
      const measured = () => {
        const { a, b } = setup.bodies[index];
        const query = new PairQuery(a, b);
        query.run(identity(), limitMm);
        return marginOf(query, wantedMm);
      };
      return [{ ...told, about, pair: constantPair(measured, leastMm) }];
    }
    const input: TurningPairInput = {
      turning: meshBeside(solids[turning], solids[standing]),
      standing: meshBeside(solids[standing], solids[turning]),
      roundZones: round,
      ridingZones: riding,
      standingZones: rest,
      wantedMm: wantedMm + leastMm,
      vehicleFromWheel: vehicleFromWheelAxis(corner.suspension),
      limitMm,
    };
    const periodDeg = about === 'caliper' ? 360 : hubPeriodDeg(corner);
    return [{ ...told, about, pair: fromDrawn(input, angleOf(about, drawn), leastMm, periodDeg) }];
  });
}

/** The angle that a pair follows, of two clockings. */
export function angleOf(about: About, { caliperDeg, hubDeg }: Clockings): number {
  if (about === 'between') return caliperDeg - hubDeg;
  return about === 'hub' ? hubDeg : caliperDeg;
}
