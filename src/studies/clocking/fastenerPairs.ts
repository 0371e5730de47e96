import { assemblyStep } from '../../design/assemblyStep.ts';
import type { Corner, Entry } from '../../design/schema.ts';
import { type FastenerBody, fastenerBodies } from '../../solids/fasteners/fastenerBodies.ts';
import type { Solid } from '../../solids/solid.ts';
import { vehicleFromWheelAxis } from '../../solids/wheelFrame.ts';
import { meshBeside, type Setup } from '../../sweep/setUp.ts';
import { isDirectionFree } from '../assembly/freeHandle.ts';
import { hubPeriodDeg } from './figures.ts';
import { isRound, turnerOf } from './groups.ts';
import type { Turned } from './profile.ts';
import { angleOf, constantPair, drawnClockings, lazily, type StudyPair } from './studyPairs.ts';
import { type TurnedMargin, TurningPair } from './turningPair.ts';

/** Clearances above this are not measured, mm: a path or tool is either free or blocked. */
const SEARCH_LIMIT_MM = 8;

const STAGE_NAMES: Record<Exclude<FastenerBody['stage'], 'seated'>, string> = {
  wayOut: 'way out of the',
  tool: 'tool on the',
};

/** The bodies of a corner's fasteners. Rejects with an Error that names the set for bolts that cannot be built. */
export const bodiesOfFasteners = ({ design, settings }: Setup): Promise<FastenerBody[]> =>
  fastenerBodies(design.corner, settings.chordToleranceMm);

/**
 * Pairs for the access of the hub's and the caliper's bolts: space to put in, turn and take out each bolt at its step
 * of assembly, at ride height. There is one pair for the paths of a set, or for its tools, with each solid, including
 * solids that no turn changes. Wrenches without a direction in the file are left out, because they may come from any
 * side. A pair clears if no bolt of the set is blocked, and then sets no margin. `bodies`: of the corner, see
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
    if (stage === 'tool' && isDirectionFree(boltsOf(corner, boltsId))) continue;
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
      const together = combined(
        pairs,
        angleOf(about, drawn),
        about === 'caliper' ? 360 : hubPeriodDeg(corner),
      );
      return [
        {
          names: [
            `${STAGE_NAMES[first.stage as 'wayOut' | 'tool']} ${first.end}s, ${bolts.label ?? bolts.id}`,
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

  /** `solidTurns`: the solid is rotated relative to the fastener, not the reverse. */
  function turningPair(body: FastenerBody, solid: Solid, solidTurns: boolean): TurningPair {
    const zones = body.zonesAgainst
      .filter(({ solidId }) => solidId === solid.id)
      .flatMap((seat) => seat.zones);
    const beside = meshBeside(solid, body);
    const [turning, fixed] = solidTurns ? [beside, body] : [body, beside];
    return new TurningPair({
      turning,
      fixed,
      turningZones: solidTurns ? [] : zones,
      fixedZones: solidTurns ? zones : [],
      requiredMm: 0,
      vehicleFromWheel,
      limitMm: SEARCH_LIMIT_MM,
    });
  }
}

const boltsOf = (corner: Corner, boltsId: string) =>
  corner.parts.find(({ id }) => id === boltsId) as Entry<'bolts'>;

/** The margin of an unblocked path or tool. */
const FREE: TurnedMargin = {
  kind: 'beyond',
  marginMm: Number.POSITIVE_INFINITY,
  errorMm: Number.NaN,
};

const fails = ({ marginMm }: TurnedMargin): boolean => marginMm < 0;

/** Whether the margin, less its error, is negative; for a pair without any other proof. */
const mayFail = ({ marginMm, errorMm }: TurnedMargin): boolean => marginMm - errorMm < 0;

/** The smallest margin at a turn of the pairs that block; an unknown margin comes first. */
function leastOf(
  pairs: readonly TurningPair[],
  turnDeg: number,
  blocks: (margin: TurnedMargin) => boolean,
): TurnedMargin {
  const found = pairs.map((pair) => pair.at(turnDeg));
  return (
    found.find(({ kind }) => kind === 'unknown') ??
    found.reduce((least, one) => (blocks(one) && one.marginMm < least.marginMm ? one : least), FREE)
  );
}

/** Combines pairs that turn together into one, with angles as clockings. Unblocked pairs set no margin. */
function combined(pairs: () => readonly TurningPair[], drawnDeg: number, periodDeg: number): Turned {
  return {
    periodDeg,
    at: (deg) => leastOf(pairs(), deg - drawnDeg, fails),
    bounds(deg, halfDeg) {
      let [lowerMm, upperMm] = [Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY];
      for (const pair of pairs()) {
        const one = pair.bounds(deg - drawnDeg, halfDeg);
        lowerMm = Math.min(lowerMm, one.lowerMm);
        upperMm = Math.min(upperMm, one.upperMm);
        // One blocked pair makes the combination fail.
        if (upperMm < 0) return { lowerMm: Number.NEGATIVE_INFINITY, upperMm };
      }
      return { lowerMm, upperMm };
    },
    estimate(deg) {
      const estimates = pairs().map((pair) => pair.estimate(deg - drawnDeg));
      const worst =
        estimates.find(({ state }) => state === 'fails') ?? estimates.find(({ state }) => state !== 'clears');
      return worst ?? { marginMm: Number.POSITIVE_INFINITY, state: 'clears' };
    },
  };
}
