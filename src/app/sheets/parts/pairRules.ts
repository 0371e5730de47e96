import { idsOf } from '../../../design/checks/relationChecks.ts';
import { valueAt } from '../../../design/path.ts';
import type { PartKind } from '../../../design/schema.ts';
import { entriesOf, idOf, nameOf } from '../../state/partEntries.ts';

/** Id that a pair rule may name, with its name on the screen. */
export interface RuleName {
  id: string;
  name: string;
}

/** Every part of a file, and both halves of parts that are built as two solids. */
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

/** Two parts without a rule: the preferred ones if they have none, else the first pair. Undefined if every pair has a rule. */
export function freePair(source: unknown, preferred: readonly string[]): [string, string] | undefined {
  const pairs = valueAt(source, ['pairs']);
  const taken = new Set(
    (Array.isArray(pairs) ? pairs : []).map((pair) => {
      const between = valueAt(pair, ['between']);
      return Array.isArray(between) ? between.toSorted().join(' ') : '';
    }),
  );
  const isFree = (one: string, other: string) => !taken.has([one, other].toSorted().join(' '));
  if (preferred.length === 2 && isFree(preferred[0], preferred[1])) return [preferred[0], preferred[1]];
  const ids = entriesOf(source).flatMap((entry) => idOf(entry) ?? []);
  for (const [at, one] of ids.entries())
    for (const other of ids.slice(at + 1)) if (isFree(one, other)) return [one, other];
  return undefined;
}
