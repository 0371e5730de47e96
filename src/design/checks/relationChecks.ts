import type { PartEntry } from '../schema.ts';
import { suggest } from '../suggest.ts';
import { tyreDimensions } from '../tyreSize.ts';
import type { Check } from './report.ts';

type Kind = PartEntry['kind'];

/** A corner has one of each. */
const SINGLE: readonly Kind[] = ['wheel', 'tyre', 'hub', 'upright', 'tieRod', 'damper'];

/** What a part cannot be placed without. */
const NEEDS: readonly (readonly [kind: Kind, needed: Kind, why: string])[] = [
  ['tyre', 'wheel', 'it sits on its rim'],
  ['caliper', 'rotor', 'it is placed from the friction faces'],
  ['upright', 'hub', 'it bolts to the face of the bearing housing'],
];

export const uniqueIds: Check = ({ parts }, report) => {
  const first = new Map<string, number>();
  parts.forEach(({ id }, index) => {
    if (id === undefined) return;
    const before = first.get(id);
    if (before === undefined) first.set(id, index);
    else report(['parts', index, 'id'], `is the id of parts[${before}] too; give each part its own`);
  });
};

export const singleParts: Check = ({ parts }, report) => {
  const first = new Map<string, number>();
  parts.forEach(({ kind, entry }, index) => {
    const [role, field] = roleOf(kind, entry);
    if (role === undefined) return;
    const before = first.get(role);
    if (before === undefined) first.set(role, index);
    else report(['parts', index, field], `parts[${before}] is ${role} already; a corner has one`);
  });
};

/** The one place in a corner that a part takes, and the field that says so. */
function roleOf(kind: Kind | undefined, entry: PartEntry | undefined): [string | undefined, string] {
  if (kind !== undefined && SINGLE.includes(kind)) return [`the ${kind}`, 'kind'];
  if (entry?.kind === 'controlArm') return [`the ${entry.arm} arm`, 'arm'];
  if (entry?.kind === 'bolts') return [`the bolts of the ${entry.joins}`, 'joins'];
  if (entry?.kind === 'joint') return [`the joint at ${entry.at}`, 'at'];
  return [undefined, 'kind'];
}

export const neededParts: Check = ({ parts, suspension }, report) => {
  const kinds = new Set(parts.map((part) => part.kind));
  // A part whose kind cannot be read might be the one that is needed.
  const has = (kind: Kind) => kinds.has(kind) || kinds.has(undefined);
  const damperPlaced = suspension === undefined || suspension.damper !== undefined;
  parts.forEach(({ kind, entry }, index) => {
    const path = ['parts', index, 'kind'];
    for (const [one, needed, why] of NEEDS) {
      if (kind === one && !has(needed)) report(path, `needs a part of kind "${needed}": ${why}`);
    }
    if (entry?.kind === 'rotor' && entry.mount === 'behindFlange' && !has('hub')) {
      report(['parts', index, 'mount'], 'needs a part of kind "hub": the rotor bolts behind its flange');
    }
    if (entry?.kind === 'spacer' && entry.place === 'upright' && !has('hub')) {
      report(
        ['parts', index, 'place'],
        'needs a part of kind "hub": the spacer sits behind its bearing housing',
      );
    }
    if (kind === 'damper' && !damperPlaced) {
      report(path, 'a damper needs its mounts: write them as suspension.damper');
    }
    if (entry !== undefined && 'carrier' in entry && /^damper/.test(entry.carrier) && !damperPlaced) {
      report(['parts', index, 'carrier'], 'needs a damper: write its mounts as suspension.damper');
    }
  });
};

/** The tyre's designation can be read and is for this wheel. */
export const tyreFitsWheel: Check = ({ parts }, report) => {
  const wheel = parts.find((part) => part.entry?.kind === 'wheel')?.entry;
  parts.forEach(({ entry: tyre }, index) => {
    if (tyre?.kind !== 'tyre') return;
    const path = ['parts', index, 'designation'];
    try {
      const { rimCode } = tyreDimensions(tyre);
      if (wheel?.kind === 'wheel' && wheel.diameterCode !== rimCode) {
        report(path, `is for a ${rimCode}-inch rim and the wheel's diameterCode is ${wheel.diameterCode}`);
      }
    } catch (error) {
      report(path, (error as Error).message);
    }
  });
};

/** Pair rules name parts that exist, two of them, once, and say why where they switch a check off. */
export const pairRules: Check = ({ parts, pairs }, report) => {
  const ids = parts.flatMap(({ id, kind }) => (id === undefined ? [] : idsOf(id, kind)));
  const seen = new Map<string, number>();
  pairs.forEach(({ between, entry }, index) => {
    const path = ['pairs', index, 'between'];
    const names = between.filter((name) => typeof name === 'string');
    names.forEach((name, end) => {
      if (ids.includes(name)) return;
      report([...path, end], `is not the id of a part.${suggest(name, ids)}`);
    });
    if (names.length === 2) {
      const key = names.toSorted().join(' ');
      const before = seen.get(key);
      if (names[0] === names[1]) report(path, 'names the same part twice; a pair is of two parts');
      else if (before === undefined) seen.set(key, index);
      else report(path, `is the pair of pairs[${before}] too; write one rule for it`);
    }
    if (entry?.check === false && entry.why === undefined) {
      report(['pairs', index, 'why'], 'is missing; a pair that is not checked needs the reason in words');
    }
  });
};

/** The ids by which a pair rule may name a part: its own, and those of its solids where it makes two. */
export function idsOf(id: string, kind: Kind | undefined): string[] {
  if (kind === 'hub') return [id, `${id}.housing`];
  if (kind === 'joint') return [id, `${id}.bolt`];
  if (kind === 'damper') return [id, `${id}.body`, `${id}.rod`];
  return [id];
}
