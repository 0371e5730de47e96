import { coveringChecks } from '../design/coveringChecks.ts';
import { DesignProblems, type Problem } from '../design/problem.ts';
import type { Carrier, Corner, PairEntry } from '../design/schema.ts';
import type { Solid, SolidKind, Zone } from '../solids/solid.ts';
import { holdsJointOf } from './ownBolt.ts';
import type { Pair, UncheckedPair } from './pair.ts';
import { rigidGroup } from './pivot.ts';
import { BINDS, CALIPER_CLAMPED, CLAMPED, defaultTarget, type Target } from './targets.ts';
import { readZone, zoneProblems } from './userZones.ts';

const CARRIER_NAMES: Record<Carrier, string> = {
  chassis: 'the chassis',
  rack: 'the rack',
  lowerArm: 'the lower arm',
  upperArm: 'the upper arm',
  upright: 'the upright',
  wheel: 'the wheel',
  tieRod: 'the tie rod',
  damperBody: 'the damper body',
  damperRod: 'the damper rod',
};

/** Kinds that are clamped against each other on the studs: what meets there is meant to. */
const ON_STUDS: readonly SolidKind[] = ['hub', 'wheel', 'rotor', 'spacer'];

/** Why two parts on the studs are not measured; undefined of rotor and wheel, and of two rotors, which are. */
function clampedOnStuds(kindA: SolidKind, kindB: SolidKind): string | undefined {
  const kinds = [kindA, kindB];
  if (!kinds.every((kind) => ON_STUDS.includes(kind))) return undefined;
  const other = kindA === 'rotor' ? kindB : kindB === 'rotor' ? kindA : undefined;
  if (other === 'wheel' || other === 'rotor') return undefined;
  if (!kinds.includes('hub') || kinds.includes('wheel')) return 'clamped together on the studs';
  return `clamped together on the studs; the stud holes of a ${kinds.find((kind) => kind !== 'hub')} are not measured`;
}

/** Why two solids are never measured against each other, whatever the file says. */
function neverMeasured(a: Solid, b: Solid): string | undefined {
  if (a.partIndex === b.partIndex && a.kind !== 'joint' && b.kind !== 'joint')
    return 'two bodies of one part';
  const kinds = [a.kind, b.kind];
  if (kinds.includes('tyre') && kinds.includes('wheel')) return 'the tyre is mounted on the wheel';
  if (a.carrier === 'wheel' && b.carrier === 'wheel') return clampedOnStuds(a.kind, b.kind);
  return undefined;
}

/** Why two solids are not measured against each other unless the file asks for it. */
function notMeasuredUnasked(a: Solid, b: Solid): string | undefined {
  const seated = seatOn(a, b)?.notChecked ?? seatOn(b, a)?.notChecked;
  if (seated !== undefined) return seated;
  return a.carrier === b.carrier && a.carrier !== 'wheel' && a.carrier !== 'upright'
    ? `both are fixed to ${CARRIER_NAMES[a.carrier]}`
    : undefined;
}

const seatZones = (one: Solid, other: Solid): readonly Zone[] =>
  one.seats?.filter(({ solidId }) => solidId === other.id).flatMap(({ zones }) => zones) ?? [];

const seatOn = (one: Solid, other: Solid) => one.seats?.find(({ solidId }) => solidId === other.id);

/** `between` names a solid by its own id or by the id of its entry. */
function speaksOf(entry: PairEntry, a: Solid, b: Solid, corner: Corner): boolean {
  const names = (solid: Solid) => [solid.id, corner.parts[solid.partIndex].id];
  const [one, other] = entry.between;
  return (
    (names(a).includes(one) && names(b).includes(other)) ||
    (names(a).includes(other) && names(b).includes(one))
  );
}

/** Parts that are clamped to each other; bolts keep their targets beside their seats. */
const isClamped = (one: Solid, other: Solid): boolean =>
  [one, other].every(({ kind }) => kind !== 'bolts') &&
  (seatOn(one, other) ?? seatOn(other, one)) !== undefined;

function targetOf(one: Solid, other: Solid, moves: boolean): Target {
  if (holdsJointOf(one, other) || holdsJointOf(other, one)) return BINDS;
  if (!isClamped(one, other)) return defaultTarget(one.kind, other.kind, moves);
  return [one.kind, other.kind].includes('caliper') ? CALIPER_CLAMPED : CLAMPED;
}

/**
 * Every pair of solids, sorted into those that are measured and those that are not, with why. A pair that the file
 * speaks of is measured unless the file says not to, or its parts are joined for good; of several entries about one pair the
 * last holds for each field. Throws DesignProblems for zones of the file that do not keep their place, and for entries about
 * pairs that are never measured.
 */
export function planPairs(
  corner: Corner,
  solids: readonly Solid[],
): { pairs: Pair[]; unchecked: UncheckedPair[] } {
  const pairs: Pair[] = [];
  const unchecked: UncheckedPair[] = [];
  const problems: Problem[] = [];
  /** Why nothing of an entry was measured so far; undefined once something was. */
  const unmeasured = new Map<PairEntry, string | undefined>();
  for (let a = 0; a < solids.length; a++) {
    for (let b = a + 1; b < solids.length; b++) {
      const [one, other] = [solids[a], solids[b]];
      const said = corner.pairs.filter((entry) => speaksOf(entry, one, other, corner));
      const off = said.findLast((entry) => !entry.check);
      const never = neverMeasured(one, other);
      const byDefault = said.length > 0 ? undefined : notMeasuredUnasked(one, other);
      const why = off === undefined ? (never ?? byDefault) : `the file says so: ${off.why}`;
      for (const entry of said)
        if (!unmeasured.has(entry) || never === undefined) unmeasured.set(entry, never);
      if (why !== undefined) {
        const coveredBy = off === undefined ? coveringChecks(one.kind, other.kind) : [];
        unchecked.push({ a, b, why, ...(coveredBy.length > 0 ? { coveredBy } : {}) });
        continue;
      }
      const moves = rigidGroup(one.carrier) !== rigidGroup(other.carrier);
      const target = targetOf(one, other, moves);
      const wanted = said.findLast((entry) => entry.target !== undefined)?.target;
      const zoned = said.flatMap(({ zone }, k) =>
        zone === undefined ? [] : [{ zone, index: corner.pairs.indexOf(said[k]) }],
      );
      problems.push(...zoned.flatMap(({ zone, index }) => zoneProblems(zone, index, [one, other], corner)));
      pairs.push({
        a,
        b,
        moves,
        zones: [
          ...seatZones(one, other),
          ...seatZones(other, one),
          ...zoned.map(({ zone }) => readZone(zone)),
        ],
        targetMm: wanted ?? target.mm,
        targetOrigin: wanted === undefined ? target.origin : 'the corner file',
        allowanceMm: one.allowanceMm + other.allowanceMm,
      });
    }
  }
  for (const [entry, why] of unmeasured) {
    if (why === undefined || !entry.check) continue;
    problems.push({
      path: `pairs[${corner.pairs.indexOf(entry)}].between`,
      found: entry.between.join(' and '),
      message: `these parts are never measured against each other (${why}); remove the entry`,
    });
  }
  if (problems.length > 0) throw new DesignProblems(problems);
  return { pairs, unchecked };
}
