import type { Corner, PartEntry } from '../../design/schema.ts';
import { kindOf } from '../../parts/kindOf.ts';
import type { Solid } from '../../solids/solid.ts';
import type { Precedence } from './order.ts';

/**
 * The items that a corner is assembled from: its parts, except that a tyre goes with its wheel. `itemOf` maps a
 * part's id to its item.
 */
export function itemsOf({ parts }: Corner): {
  items: readonly PartEntry[];
  itemOf: (partId: string) => string;
} {
  const wheel = parts.find(({ kind }) => kind === 'wheel')?.id;
  const tyres = new Set(parts.flatMap(({ id, kind }) => (kind === 'tyre' ? [id] : [])));
  const itemOf = (partId: string) => (wheel !== undefined && tyres.has(partId) ? wheel : partId);
  return { items: parts.filter(({ id }) => itemOf(id) === id), itemOf };
}

/** Precedences of parts before the parts that are mounted on or over them. */
export const mountingPrecedences = ({ parts }: Corner): Precedence[] =>
  parts.flatMap((entry) =>
    parts
      .filter((other) => sitsOn(entry, other))
      .map(
        (other): Precedence => ({
          earlier: other.id,
          later: entry.id,
          strict: false,
          why: `${entry.label ?? entry.id} goes on ${other.label ?? other.id}`,
        }),
      ),
  );

/** Precedences of parts before the bolts that hold them. */
export const boltPrecedences = (
  { parts }: Corner,
  solids: readonly Solid[],
  itemOf: (partId: string) => string,
): Precedence[] =>
  solids.flatMap((solid) =>
    (solid.kind === 'bolts' ? (solid.seats ?? []) : []).flatMap(({ solidId }): Precedence[] => {
      const held = solids.find(({ id }) => id === solidId);
      if (held === undefined) return [];
      const [bolts, part] = [parts[solid.partIndex].id, parts[held.partIndex].id];
      const why = `${solid.label} hold ${held.label}`;
      return [{ earlier: itemOf(part), later: bolts, strict: false, why }];
    }),
  );

/**
 * Whether precedences put one item before another or at the same step, directly or through others. An item is before
 * itself.
 */
export function comesBefore(precedences: readonly Precedence[], one: string, other: string): boolean {
  const before = new Set([other]);
  for (const id of before)
    for (const { earlier, later } of precedences) if (later === id) before.add(earlier);
  return before.has(one);
}

/** Whether a part is mounted on or over another. */
const sitsOn = (entry: PartEntry, other: PartEntry): boolean =>
  kindOf(entry.kind).sitsOn.some(
    ({ kind, place }) =>
      other.kind === kind && (place === undefined || (other.kind === 'spacer' && other.place === place)),
  );
