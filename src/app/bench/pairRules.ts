import { idsOf } from '../../design/checks/relationChecks.ts';
import { valueAt } from '../../design/path.ts';
import type { PartKind } from '../../design/schema.ts';
import { entriesOf, idOf, nameOf } from './partOf.ts';

/** What a pair rule may name, with what people call it. */
export interface RuleName {
  id: string;
  name: string;
}

/** Every part of a file, and each half of those that are made in two. */
export function namesIn(source: unknown): RuleName[] {
  return entriesOf(source).flatMap((entry) => {
    const id = idOf(entry);
    if (id === undefined) return [];
    const kind = valueAt(entry, ['kind']) as PartKind | undefined;
    return idsOf(id, kind).map((one) => ({
      id: one,
      name: one === id ? nameOf(entry) : `${nameOf(entry)}, ${one.slice(id.length + 1)}`,
    }));
  });
}

/** Two parts that no rule of the file is for: those wanted where they are free, else the first that are. */
export function freePair(source: unknown, wanted: readonly string[]): [string, string] | undefined {
  const pairs = valueAt(source, ['pairs']);
  const taken = new Set(
    (Array.isArray(pairs) ? pairs : []).map((pair) => {
      const between = valueAt(pair, ['between']);
      return Array.isArray(between) ? between.toSorted().join(' ') : '';
    }),
  );
  const isFree = (one: string, other: string) => !taken.has([one, other].toSorted().join(' '));
  if (wanted.length === 2 && isFree(wanted[0], wanted[1])) return [wanted[0], wanted[1]];
  const ids = entriesOf(source).flatMap((entry) => idOf(entry) ?? []);
  for (const [at, one] of ids.entries())
    for (const other of ids.slice(at + 1)) if (isFree(one, other)) return [one, other];
  return undefined;
}
