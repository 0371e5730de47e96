import { layoutOf } from '../../layouts/layoutOf.ts';
import { lockOf } from '../../layouts/steering.ts';
import { kindOf, solidIds } from '../../parts/kindOf.ts';
import type { PartKind } from '../../parts/kinds.ts';
import { valueAt } from '../path.ts';
import type { Readable } from '../readable.ts';
import { suggest } from '../suggest.ts';
import { tyreDimensions } from '../tyreSize.ts';
import type { Check, Report } from './report.ts';

export const uniqueIds: Check = ({ parts }, report) => {
  const first = new Map<string, number>();
  parts.forEach(({ id }, index) => {
    if (id === undefined) return;
    const before = first.get(id);
    if (before === undefined) first.set(id, index);
    else report(['parts', index, 'id'], `is also the id of parts[${before}]; give each part its own id`);
  });
};

export const singleParts: Check = ({ parts }, report) => {
  const first = new Map<string, number>();
  parts.forEach(({ kind, entry }, index) => {
    const only = kind && kindOf(kind).only;
    if (only === undefined) return;
    const value = only.field === 'kind' ? kind : valueAt(entry, [only.field]);
    if (value === undefined) return;
    const role = only.role(String(value));
    const before = first.get(role);
    if (before === undefined) first.set(role, index);
    else
      report(['parts', index, only.field], `parts[${before}] is already ${role}; a corner has only one`, {
        code: 'onlyOne',
      });
  });
};

export const neededParts: Check = ({ parts, suspension }, report) => {
  const kinds = new Set<string | undefined>(parts.map((part) => part.kind));
  // A part of unknown kind may be the one that is needed.
  const has = (kind: string) => kinds.has(kind) || kinds.has(undefined);
  const damperPlaced = suspension === undefined || suspension.damper !== undefined;
  parts.forEach(({ kind, entry }, index) => {
    for (const { kind: needed, why, if: only } of kind === undefined ? [] : kindOf(kind).needs) {
      if (has(needed) || (only !== undefined && valueAt(entry, [only.field]) !== only.value)) continue;
      report(['parts', index, only?.field ?? 'kind'], `needs a part of kind "${needed}": ${why}`);
    }
    if (kind === 'damper' && !damperPlaced) {
      report(['parts', index, 'kind'], 'a damper needs its mounts: write them as suspension.damper');
    }
    if (entry !== undefined && 'carrier' in entry && /^damper/.test(entry.carrier) && !damperPlaced) {
      report(['parts', index, 'carrier'], 'needs a damper: write its mounts as suspension.damper');
    }
  });
};

/** Checks that the tyre's designation can be read and fits the wheel. */
export const tyreFitsWheel: Check = ({ parts }, report) => {
  const wheel = parts.find((part) => part.entry?.kind === 'wheel')?.entry;
  parts.forEach(({ entry: tyre }, index) => {
    if (tyre?.kind !== 'tyre') return;
    const path = ['parts', index, 'designation'];
    try {
      const { rimCode } = tyreDimensions(tyre);
      if (wheel?.kind === 'wheel' && wheel.diameterCode !== rimCode) {
        report(path, `is for a ${rimCode}-inch rim, but the wheel's diameterCode is ${wheel.diameterCode}`);
      }
    } catch (error) {
      report(path, (error as Error).message);
    }
  });
};

/** Reports names that are not two different parts. Returns the key of two names, in either order. */
function twoParts(
  between: readonly unknown[],
  ids: readonly string[],
  path: readonly (string | number)[],
  report: Report,
): string | undefined {
  const names = between.filter((name) => typeof name === 'string');
  names.forEach((name, end) => {
    if (!ids.includes(name)) report([...path, end], `is not the id of a part.${suggest(name, ids)}`);
  });
  if (names.length !== 2) return undefined;
  if (names[0] !== names[1]) return names.toSorted().join(' ');
  report([...path], 'names the same part twice; name two parts');
  return undefined;
}

const allIds = ({ parts }: Readable): string[] =>
  parts.flatMap(({ id, kind }) => (id === undefined ? [] : idsOf(id, kind)));

/** Checks that each pair rule names two existing parts, once, and gives a reason if it switches the check off. */
export const pairRules: Check = (file, report) => {
  const ids = allIds(file);
  const seen = new Map<string, number>();
  file.pairs.forEach(({ between, entry }, index) => {
    const path = ['pairs', index, 'between'];
    const key = twoParts(between, ids, path, report);
    if (key !== undefined) {
      const before = seen.get(key);
      if (before === undefined) seen.set(key, index);
      else report(path, `is also the pair of pairs[${before}]; write one rule for it`);
    }
    if (entry?.check === false && entry.why === undefined) {
      report(['pairs', index, 'why'], 'is missing; write why the pair is not checked');
    }
  });
};

/** Checks that each gap of the mock-up is between two parts, at a pose within travel and lock. */
export const mockupPoses: Check = (file, report) => {
  const ids = allIds(file);
  const { suspension, mockup, lengthText } = file;
  mockup.forEach(({ between, entry }, index) => {
    const here = ['mockup', index];
    twoParts(between, ids, [...here, 'between'], report);
    if (entry === undefined || suspension === undefined) return;
    const { travel } = suspension;
    if (entry.travel > travel.bump || entry.travel < -travel.droop)
      report(
        [...here, 'travel'],
        `is out of the travel: it must be from ${lengthText(-travel.droop, 'up')} to ${lengthText(travel.bump, 'down')}`,
        { against: ['suspension', 'travel'] },
      );
    const { noun, quantity } = layoutOf(suspension).steering;
    const [field, other] =
      quantity === 'length' ? (['rack', 'steerDeg'] as const) : (['steerDeg', 'rack'] as const);
    if (entry[other] !== undefined)
      report(
        [...here, other],
        `does not apply: this suspension is steered by its ${noun}. Write "${field}" instead`,
      );
    const input = entry[field] ?? 0;
    const lock = lockOf(suspension, input > 0 ? 'outboard' : 'inboard');
    const text = quantity === 'length' ? lengthText(lock, 'down') : `${lock}°`;
    if (Math.abs(input) > lock)
      report([...here, field], `is beyond the lock, which is ${text} to that side`, {
        against: ['suspension', 'steering'],
      });
  });
};

/** Ids by which a pair rule may name a part: its own, and those of its solids. */
export const idsOf = (id: string, kind: PartKind | undefined): string[] => [
  ...new Set([id, ...(kind === undefined ? [] : solidIds(id, kind))]),
];
