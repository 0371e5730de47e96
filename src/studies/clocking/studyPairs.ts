import { PairQuery } from '../../clearance/query.ts';
import type { Design } from '../../design/design.ts';
import { identity } from '../../math/rigid.ts';
import type { Zone } from '../../solids/solid.ts';
import { vehicleFromWheelAxis } from '../../solids/wheelFrame.ts';
import type { Pair } from '../../sweep/pair.ts';
import { meshBeside, type Setup } from '../../sweep/setUp.ts';
import { hubPeriodDeg } from './figures.ts';
import { isRound, isRoundZone, ridesWith, studiedCaliper, turnerOf } from './groups.ts';
import type { Turned } from './profile.ts';
import {
  type MarginEstimate,
  marginOf,
  OPEN,
  type TurnedMargin,
  TurningPair,
  type TurningPairInput,
} from './turningPair.ts';

/**
 * The angle that a pair's margin depends on: the caliper's clocking, the hub's, or the caliper's less the hub's.
 * `none`: it depends on no clocking.
 */
export type About = 'caliper' | 'hub' | 'between' | 'none';

/** A pair of the study. */
export interface StudyPair {
  /** Labels of both solids. */
  names: readonly [string, string];
  /** Ids of both solids. */
  ids: readonly [string, string];
  about: About;
  /** Set if the pair is a path or a tool of bolts. */
  stage?: 'wayOut' | 'tool';
  targetMm: number;
  allowanceMm: number;
  /** Measured at an angle of `about`, degrees of clocking; the same at every angle for `none`. */
  pair: Turned;
}

/** Clockings in the file, degrees; 0 if there is no hub. */
export interface Clockings {
  caliperDeg: number;
  hubDeg: number;
}

export function drawnClockings({ corner }: Pick<Design, 'corner'>): Clockings {
  const hub = corner.parts.find((part) => part.kind === 'hub');
  return { caliperDeg: studiedCaliper(corner).entry.clockingDeg, hubDeg: hub?.clockingDeg ?? 0 };
}

/**
 * Converts clockings into turns from the file's clocking. The required margin beyond the target is not subtracted
 * from the reported margin. The pair is prepared when it is first measured.
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
    estimate(deg) {
      const { marginMm, state } = pair().estimate(deg - drawnDeg);
      return { marginMm: marginMm + leastMm, state };
    },
  };
}

/** Computes a value on first use. */
export function lazily<T>(make: () => T): () => T {
  let cached: { value: T } | undefined;
  return () => {
    cached ??= { value: make() };
    return cached.value;
  };
}

/** A pair that depends on no clocking; measured on first use. */
export function constantPair(measure: () => TurnedMargin, leastMm = 0): Turned {
  const margin = lazily(measure);
  const bounds = () => {
    const { errorMm } = margin();
    const marginMm = margin().marginMm - leastMm;
    if (Number.isNaN(marginMm)) return OPEN;
    const openMm = marginMm === Number.POSITIVE_INFINITY ? 0 : errorMm;
    return { lowerMm: marginMm - openMm, upperMm: marginMm + openMm };
  };
  const estimate = (): MarginEstimate => {
    const { lowerMm, upperMm } = bounds();
    const state = lowerMm >= 0 ? 'clears' : upperMm < 0 ? 'fails' : 'unsettled';
    return { marginMm: margin().marginMm, state };
  };
  return { periodDeg: 1, at: margin, bounds, estimate };
}

/** Margins are measured up to this, mm: larger ones make no difference to the fit and take longer. */
export const MAX_MARGIN_MM = 25;

/** How the two solids of a pair turn relative to each other. */
interface Turning {
  about: About;
  /** Indices of the solids: the turning one and the fixed one. */
  turning: number;
  fixed: number;
  /** Zones of the pair: those round about the wheel axis, those that turn, and those that do not. */
  round: readonly Zone[];
  riding: readonly Zone[];
  rest: readonly Zone[];
}

/** How a pair turns. If both solids turn, the caliper's is taken as turning relative to the hub's. */
export function turningOf({ design, solids }: Setup, pair: Pair): Turning {
  const { corner } = design;
  const vehicleFromWheel = vehicleFromWheelAxis(corner.suspension);
  const [aTurns, bTurns] = [turnerOf(corner, solids[pair.a]), turnerOf(corner, solids[pair.b])];
  const isFirst = aTurns === 'caliper' || (aTurns === 'hub' && bTurns === undefined);
  const [turning, fixed] = isFirst ? [pair.a, pair.b] : [pair.b, pair.a];
  const round = pair.zones.filter((zone) => isRoundZone(zone, vehicleFromWheel));
  const others = pair.zones.filter((zone) => !round.includes(zone));
  const riding = others.filter((zone) => ridesWith(solids[turning], zone));
  const both = aTurns !== undefined && bTurns !== undefined;
  // If both solids turn, a zone that belongs to neither is left out, so contact there is reported.
  const rest = others.filter((zone) => !riding.includes(zone) && (!both || ridesWith(solids[fixed], zone)));
  const isConstant = aTurns === bTurns || (isRound(solids[fixed]) && rest.length === 0);
  const about = isConstant ? 'none' : both ? 'between' : (aTurns ?? bTurns ?? 'none');
  return { about, turning, fixed, round, riding, rest };
}

/**
 * The pairs of a corner that matter for its fit at the wheel, at ride height: pairs with a body that turns with
 * caliper or hub, and all other fit pairs, each with the angle that it depends on. A pair clears if its margin is at
 * least `leastMm`.
 */
export function studyPairs(setup: Setup, leastMm = 0): StudyPair[] {
  const { design, solids, pairs } = setup;
  const { corner } = design;
  const drawn = drawnClockings(design);
  return pairs.flatMap((pair, index): StudyPair[] => {
    const [one, other] = [solids[pair.a], solids[pair.b]];
    const turns = [one, other].some((solid) => turnerOf(corner, solid) !== undefined);
    if (pair.moves && !turns) return [];
    const requiredMm = pair.targetMm + pair.allowanceMm;
    const limitMm = requiredMm + leastMm + MAX_MARGIN_MM;
    const common = {
      names: [one.label, other.label],
      ids: [one.id, other.id],
      targetMm: pair.targetMm,
      allowanceMm: pair.allowanceMm,
    } as const;
    const { about, turning, fixed, round, riding, rest } = turningOf(setup, pair);
    if (about === 'none') {
      const measured = () => {
        const { a, b } = setup.bodies[index];
        const query = new PairQuery(a, b);
        query.run(identity(), limitMm);
        return marginOf(query, requiredMm);
      };
      return [{ ...common, about, pair: constantPair(measured, leastMm) }];
    }
    const input: TurningPairInput = {
      turning: meshBeside(solids[turning], solids[fixed]),
      fixed: meshBeside(solids[fixed], solids[turning]),
      roundZones: round,
      turningZones: riding,
      fixedZones: rest,
      requiredMm: requiredMm + leastMm,
      vehicleFromWheel: vehicleFromWheelAxis(corner.suspension),
      limitMm,
    };
    const periodDeg = about === 'caliper' ? 360 : hubPeriodDeg(corner);
    return [{ ...common, about, pair: fromDrawn(input, angleOf(about, drawn), leastMm, periodDeg) }];
  });
}

/** The angle that a pair depends on, from two clockings. */
export function angleOf(about: About, { caliperDeg, hubDeg }: Clockings): number {
  if (about === 'between') return caliperDeg - hubDeg;
  return about === 'hub' ? hubDeg : caliperDeg;
}
