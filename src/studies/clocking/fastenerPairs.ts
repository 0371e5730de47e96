import { assemblyStep } from '../../design/assemblyStep.ts';
import type { Corner, Entry } from '../../design/schema.ts';
import { type FastenerBody, fastenerBodies } from '../../solids/fastenerBodies.ts';
import type { Solid } from '../../solids/solid.ts';
import { vehicleFromWheelAxis } from '../../solids/wheelFrame.ts';
import { meshBeside, type Setup } from '../../sweep/setUp.ts';
import { comesFromAnywhere } from '../assembly/freeHandle.ts';
import { hubPeriodDeg } from './figures.ts';
import { isRound, turnerOf } from './groups.ts';
import type { Turned } from './profile.ts';
import { angleOf, constantPair, drawnClockings, lazily, type StudyPair } from './studyPairs.ts';
import { type TurnedMargin, TurningPair } from './turningPair.ts';

/** Room beyond this is not measured, mm: a way or a tool is free or is not. */
const ROOM_MM = 8;

const STAGES: Record<Exclude<FastenerBody['stage'], 'seated'>, string> = {
  wayOut: 'way out of the',
  tool: 'tool on the',
};

/** The bodies of a corner's fasteners. Rejects with an Error that names the set for bolts that cannot be built. */
export const bodiesOfFasteners = ({ design, settings }: Setup): Promise<FastenerBody[]> =>
  fastenerBodies(design.corner, settings.chordToleranceMm);

/**
 * The room that the bolts of the hub's and the caliper's mount need to be put in, turned and taken out, against what is
 * there at their step of assembly, at ride height: one pair for the ways out of a set, or for its
 * tools, with each solid, those that no turn changes included. A wrench whose direction the file does not give is left out: it may come from wherever there is
 * room. It clears where nothing is in the way of any of the set, and then sets no margin. `bodies`: those of the corner, see
 * `bodiesOfFasteners`.
 */
export function fastenerPairs(setup: Setup, bodies: readonly FastenerBody[]): StudyPair[] {
  const { design, solids } = setup;
  const { corner } = design;
  const vehicleFromWheel = vehicleFromWheelAxis(corner.suspension);
  const drawn = drawnClockings(design);
  const sets = new Map<string, FastenerBody[]>();
  for (const body of bodies) {
    const { boltsId, joins, stage, end } = body;
    if (stage === 'tool' && comesFromAnywhere(boltsOf(corner, boltsId))) continue;
    if (stage === 'seated' || (joins !== 'hubMount' && joins !== 'caliperMount')) continue;
    const key = `${boltsId} ${stage} ${end}`;
    sets.set(key, [...(sets.get(key) ?? []), body]);
  }
  return [...sets.values()].flatMap((set) =>
    solids.flatMap((solid): StudyPair[] => {
      const [first] = set;
      const bolts = boltsOf(corner, first.boltsId);
      const entry = corner.parts[solid.partIndex];
      if (entry.id === first.boltsId || assemblyStep(corner, entry) > first.fitted) return [];
      const own = first.joins === 'hubMount' ? 'hub' : 'caliper';
      const other = turnerOf(corner, solid);
      const isConstant = other === own || (other === undefined && isRound(solid));
      const about = isConstant ? 'none' : other === undefined ? own : 'between';
      const pairs = lazily(() =>
        set.map((body) => turningPair(body, solid, about === 'between' && own === 'hub')),
      );
      const together = allOf(pairs, angleOf(about, drawn), about === 'caliper' ? 360 : hubPeriodDeg(corner));
      return [
        {
          names: [
            `${STAGES[first.stage as 'wayOut' | 'tool']} ${first.end}s, ${bolts.label ?? bolts.id}`,
            solid.label,
          ],
          ids: [bolts.id, solid.id],
          about,
          stage: first.stage as 'wayOut' | 'tool',
          targetMm: 0,
          allowanceMm: 0,
          pair: isConstant ? constantPair(() => leastOf(pairs(), 0, mayFail)) : together,
        },
      ];
    }),
  );

  /** `standsStill`: the solid is what is turned, against the fastener. */
  function turningPair(body: FastenerBody, solid: Solid, standsStill: boolean): TurningPair {
    const zones = body.zonesAgainst
      .filter(({ solidId }) => solidId === solid.id)
      .flatMap((seat) => seat.zones);
    const beside = meshBeside(solid, body);
    const [turning, standing] = standsStill ? [beside, body] : [body, beside];
    return new TurningPair({
      turning,
      standing,
      ridingZones: standsStill ? [] : zones,
      standingZones: standsStill ? zones : [],
      wantedMm: 0,
      vehicleFromWheel,
      limitMm: ROOM_MM,
    });
  }
}

const boltsOf = (corner: Corner, boltsId: string) =>
  corner.parts.find(({ id }) => id === boltsId) as Entry<'bolts'>;

/** Room that is there, however much. */
const FREE: TurnedMargin = {
  kind: 'beyond',
  marginMm: Number.POSITIVE_INFINITY,
  errorMm: Number.NaN,
};

const fails = ({ marginMm }: TurnedMargin): boolean => marginMm < 0;

/** Of a pair that has no other proof than its margin: whether that, less its error, leaves room. */
const mayFail = ({ marginMm, errorMm }: TurnedMargin): boolean => marginMm - errorMm < 0;

/** The least margin at a turn of the pairs that are in the way; one that cannot be told before any. */
function leastOf(
  pairs: readonly TurningPair[],
  turnDeg: number,
  isInTheWay: (margin: TurnedMargin) => boolean,
): TurnedMargin {
  const found = pairs.map((pair) => pair.at(turnDeg));
  return (
    found.find(({ kind }) => kind === 'unknown') ??
    found.reduce((least, one) => (isInTheWay(one) && one.marginMm < least.marginMm ? one : least), FREE)
  );
}

/** Several pairs that turn together as one, counted from a clocking as drawn: what is free sets no margin. */
function allOf(pairs: () => readonly TurningPair[], drawnDeg: number, periodDeg: number): Turned {
  return {
    periodDeg,
    at: (deg) => leastOf(pairs(), deg - drawnDeg, fails),
    bounds(deg, halfDeg) {
      let [lowerMm, upperMm] = [Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY];
      for (const pair of pairs()) {
        const one = pair.bounds(deg - drawnDeg, halfDeg);
        lowerMm = Math.min(lowerMm, one.lowerMm);
        upperMm = Math.min(upperMm, one.upperMm);
        // One that is in the way fails all.
        if (upperMm < 0) return { lowerMm: Number.NEGATIVE_INFINITY, upperMm };
      }
      return { lowerMm, upperMm };
    },
    glance(deg) {
      const seen = pairs().map((pair) => pair.glance(deg - drawnDeg));
      const worst =
        seen.find(({ seems }) => seems === 'fails') ?? seen.find(({ seems }) => seems !== 'clears');
      return worst ?? { marginMm: Number.POSITIVE_INFINITY, seems: 'clears' };
    },
  };
}
