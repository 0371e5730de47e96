import { coveringChecks } from '../design/coveringChecks.ts';
import type { Corner, PairEntry } from '../design/schema.ts';
import { layoutOf } from '../layouts/layoutOf.ts';
import { solidFacts } from '../parts/kindOf.ts';
import type { ClearanceClass } from '../parts/partKind.ts';
import type { Solid, SolidKind, Zone } from '../solids/solid.ts';
import { DesignProblems, type Problem } from '../units/problem.ts';
import { holdsJointOf } from './ownBolt.ts';
import type { Pair, UncheckedPair } from './pair.ts';
import { rigidGroup } from './pivot.ts';
import { BINDS, CALIPER_CLAMPED, CLAMPED, defaultTarget, type Target } from './targets.ts';
import { readZone, zoneProblems } from './userZones.ts';

/** Solids that the studs clamp together; contact between them is intended. */
const ON_STUDS: readonly ClearanceClass[] = ['onStuds', 'rotor', 'wheel'];

/**
 * Reason why two parts on the studs are not measured. Undefined for rotor and wheel and for two rotors, which are
 * measured.
 */
function clampedOnStuds(kindA: SolidKind, kindB: SolidKind): string | undefined {
  const kinds = [kindA, kindB];
  if (!kinds.every((kind) => ON_STUDS.includes(solidFacts(kind).clearance))) return undefined;
  const other = kindA === 'rotor' ? kindB : kindB === 'rotor' ? kindA : undefined;
  if (other === 'wheel' || other === 'rotor') return undefined;
  if (!kinds.includes('hub') || kinds.includes('wheel')) return 'clamped together on the studs';
  return `clamped together on the studs; the stud holes of a ${kinds.find((kind) => kind !== 'hub')} are not measured`;
}

/**
 * Reason why two solids are never measured against each other, even if the file lists the pair; undefined if there is
 * none.
 */
function whyNeverMeasured(a: Solid, b: Solid): string | undefined {
  if (a.partIndex === b.partIndex && a.kind !== 'joint' && b.kind !== 'joint')
    return 'two bodies of one part';
  const kinds = [a.kind, b.kind];
  if (kinds.includes('tyre') && kinds.includes('wheel')) return 'the tyre is mounted on the wheel';
  if (a.carrier === 'wheel' && b.carrier === 'wheel') return clampedOnStuds(a.kind, b.kind);
  return undefined;
}

/** Reason why two solids are not measured unless the file lists the pair; undefined if there is none. */
function whySkippedByDefault(a: Solid, b: Solid, { suspension }: Corner): string | undefined {
  const seated = seatOn(a, b)?.notChecked ?? seatOn(b, a)?.notChecked;
  if (seated !== undefined) return seated;
  return a.carrier === b.carrier && a.carrier !== 'wheel' && a.carrier !== 'upright'
    ? `both are fixed to ${layoutOf(suspension).carriers[a.carrier]}`
    : undefined;
}

const seatZones = (one: Solid, other: Solid): readonly Zone[] =>
  one.seats?.filter(({ solidId }) => solidId === other.id).flatMap(({ zones }) => zones) ?? [];

const seatOn = (one: Solid, other: Solid) => one.seats?.find(({ solidId }) => solidId === other.id);

/** Whether an entry applies to two solids. `between` names a solid by its own id or by the id of its part. */
function appliesTo(entry: PairEntry, a: Solid, b: Solid, corner: Corner): boolean {
  const names = (solid: Solid) => [solid.id, corner.parts[solid.partIndex].id];
  const [one, other] = entry.between;
  return (
    (names(a).includes(one) && names(b).includes(other)) ||
    (names(a).includes(other) && names(b).includes(one))
  );
}

/** Whether two parts are clamped to each other. Bolts do not count: they keep their targets beside their seats. */
const isClamped = (one: Solid, other: Solid): boolean =>
  [one, other].every(({ kind }) => kind !== 'bolts') &&
  (seatOn(one, other) ?? seatOn(other, one)) !== undefined;

function targetOf(one: Solid, other: Solid, moves: boolean): Target {
  if (holdsJointOf(one, other) || holdsJointOf(other, one)) return BINDS;
  if (!isClamped(one, other)) return defaultTarget(one.kind, other.kind, moves);
  return [one.kind, other.kind].includes('caliper') ? CALIPER_CLAMPED : CLAMPED;
}

/**
 * Splits all pairs of solids into measured and unmeasured ones, the latter with the reason. A pair that the file
 * lists is measured unless the file excludes it or the pair is never measured. If several entries list a pair, the
 * last one wins for each field. Throws DesignProblems for zones that do not keep their place and for entries that
 * list a pair that is never measured.
 */
export function planPairs(
  corner: Corner,
  solids: readonly Solid[],
): { pairs: Pair[]; unchecked: UncheckedPair[] } {
  const pairs: Pair[] = [];
  const unchecked: UncheckedPair[] = [];
  const problems: Problem[] = [];
  /** Reason why no pair of an entry is measured so far; undefined once one is. */
  const unmeasured = new Map<PairEntry, string | undefined>();
  for (let a = 0; a < solids.length; a++) {
    for (let b = a + 1; b < solids.length; b++) {
      const [one, other] = [solids[a], solids[b]];
      const entries = corner.pairs.filter((entry) => appliesTo(entry, one, other, corner));
      const exclusion = entries.findLast((entry) => !entry.check);
      const never = whyNeverMeasured(one, other);
      const byDefault = entries.length > 0 ? undefined : whySkippedByDefault(one, other, corner);
      const why = exclusion === undefined ? (never ?? byDefault) : `the file says so: ${exclusion.why}`;
      for (const entry of entries)
        if (!unmeasured.has(entry) || never === undefined) unmeasured.set(entry, never);
      if (why !== undefined) {
        const coveredBy = exclusion === undefined ? coveringChecks(one.kind, other.kind) : [];
        unchecked.push({ a, b, why, ...(coveredBy.length > 0 ? { coveredBy } : {}) });
        continue;
      }
      const moves = rigidGroup(one.carrier) !== rigidGroup(other.carrier);
      const target = targetOf(one, other, moves);
      const typedTarget = entries.findLast((entry) => entry.target !== undefined)?.target;
      const zoned = entries.flatMap(({ zone }, k) =>
        zone === undefined ? [] : [{ zone, index: corner.pairs.indexOf(entries[k]) }],
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
        targetMm: typedTarget ?? target.mm,
        targetOrigin: typedTarget === undefined ? target.origin : 'the corner file',
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
