import { coveringChecks } from '../design/coveringChecks.ts';
import type { Carrier, Corner, PairEntry, ZoneEntry } from '../design/schema.ts';
import { normalize } from '../math/vec.ts';
import type { Attachment, Solid, SolidKind, Zone } from '../solids/solid.ts';
import type { Pair, UncheckedPair } from './pair.ts';
import { defaultTarget } from './targets.ts';

/** Carriers that ride together: the wheel turns on the upright, and is checked as its full turn. */
const rigidGroup = (carrier: Carrier): Carrier => (carrier === 'wheel' ? 'upright' : carrier);

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

/** Why two parts on the studs are not checked; undefined of rotor and wheel, and of two rotors, which are. */
function clampedOnStuds(kindA: SolidKind, kindB: SolidKind): string | undefined {
  const kinds = [kindA, kindB];
  if (!kinds.every((kind) => ON_STUDS.includes(kind))) return undefined;
  const other = kindA === 'rotor' ? kindB : kindB === 'rotor' ? kindA : undefined;
  if (other === 'wheel' || other === 'rotor') return undefined;
  if (!kinds.includes('hub') || kinds.includes('wheel')) return 'clamped together on the studs';
  return `clamped together on the studs; the stud holes of a ${kinds.find((kind) => kind !== 'hub')} are not measured`;
}

function whyNotChecked(a: Solid, b: Solid): string | undefined {
  if (a.partIndex === b.partIndex) return 'two bodies of one part';
  const seated = seatOn(a, b)?.notChecked ?? seatOn(b, a)?.notChecked;
  if (seated !== undefined) return seated;
  const kinds = [a.kind, b.kind];
  if (kinds.includes('tyre') && kinds.includes('wheel')) return 'the tyre is mounted on the wheel';
  if (a.carrier === 'wheel' && b.carrier === 'wheel') {
    const clamped = clampedOnStuds(a.kind, b.kind);
    if (clamped !== undefined) return clamped;
  }
  const sameCarrier = a.carrier === b.carrier;
  if (sameCarrier && a.carrier !== 'wheel' && a.carrier !== 'upright')
    return `both are fixed to ${CARRIER_NAMES[a.carrier]}`;
  return undefined;
}

function sharedZones(a: Solid, b: Solid): Zone[] {
  const larger = (one: Attachment, other: Attachment): Zone =>
    one.zone.radiusMm >= other.zone.radiusMm ? one.zone : other.zone;
  return a.attachments.flatMap((one) =>
    b.attachments.filter((other) => other.name === one.name).map((other) => larger(one, other)),
  );
}

const seatZones = (one: Solid, other: Solid): readonly Zone[] =>
  one.seats?.filter(({ solidId }) => solidId === other.id).flatMap(({ zones }) => zones) ?? [];

const seatOn = (one: Solid, other: Solid) => one.seats?.find(({ solidId }) => solidId === other.id);

function readZone(zone: ZoneEntry): Zone {
  if (zone.shape === 'sphere') return { shape: 'sphere', centre: zone.centre, radiusMm: zone.radius };
  return {
    shape: 'slab',
    centre: zone.centre,
    axis: normalize(zone.axis),
    halfThicknessMm: zone.thickness / 2,
    radiusMm: zone.radius,
  };
}

/** `between` names a solid by its own id or by the id of its entry. */
function speaksOf(entry: PairEntry, a: Solid, b: Solid, corner: Corner): boolean {
  const names = (solid: Solid) => [solid.id, corner.parts[solid.partIndex].id];
  const [one, other] = entry.between;
  return (
    (names(a).includes(one) && names(b).includes(other)) ||
    (names(a).includes(other) && names(b).includes(one))
  );
}

/**
 * Every pair of solids, sorted into those that are checked and those that are not, with why. A pair that the file
 * speaks of is checked unless the file says not to; of several entries about one pair the last holds for each field.
 */
export function planPairs(
  corner: Corner,
  solids: readonly Solid[],
): { pairs: Pair[]; unchecked: UncheckedPair[] } {
  const pairs: Pair[] = [];
  const unchecked: UncheckedPair[] = [];
  for (let a = 0; a < solids.length; a++) {
    for (let b = a + 1; b < solids.length; b++) {
      const [one, other] = [solids[a], solids[b]];
      const said = corner.pairs.filter((entry) => speaksOf(entry, one, other, corner));
      const off = said.findLast((entry) => !entry.check);
      const byDefault = said.length > 0 ? undefined : whyNotChecked(one, other);
      const why = off === undefined ? byDefault : `the file says so: ${off.why}`;
      if (why !== undefined) {
        const coveredBy = off === undefined ? coveringChecks(one.kind, other.kind) : [];
        unchecked.push({ a, b, why, ...(coveredBy.length > 0 ? { coveredBy } : {}) });
        continue;
      }
      const moves = rigidGroup(one.carrier) !== rigidGroup(other.carrier);
      const target = defaultTarget(one.kind, other.kind, moves);
      const wanted = said.findLast((entry) => entry.target !== undefined)?.target;
      pairs.push({
        a,
        b,
        moves,
        zones: [
          ...sharedZones(one, other),
          ...seatZones(one, other),
          ...seatZones(other, one),
          ...said.flatMap((entry) => (entry.zone ? [readZone(entry.zone)] : [])),
        ],
        targetMm: wanted ?? target.mm,
        targetOrigin: wanted === undefined ? target.origin : 'the corner file',
        allowanceMm: one.allowanceMm + other.allowanceMm,
      });
    }
  }
  return { pairs, unchecked };
}
