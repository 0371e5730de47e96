import type { Corner, PartEntry } from '../../design/schema.ts';
import type { Solid } from '../../solids/solid.ts';
import type { Precedence } from './order.ts';

/** What a corner is put together from: its parts, but that a tyre is one with its wheel. `thingOf` a part, by its id. */
export function thingsOf({ parts }: Corner): {
  things: readonly PartEntry[];
  thingOf: (partId: string) => string;
} {
  const wheel = parts.find(({ kind }) => kind === 'wheel')?.id;
  const tyres = new Set(parts.flatMap(({ id, kind }) => (kind === 'tyre' ? [id] : [])));
  const thingOf = (partId: string) => (wheel !== undefined && tyres.has(partId) ? wheel : partId);
  return { things: parts.filter(({ id }) => thingOf(id) === id), thingOf };
}

/** What has to be there before a part can be put on: that on which it sits, and what it goes over. */
export const putOnFirst = ({ parts }: Corner): Precedence[] =>
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

/** That what bolts hold is there before them. */
export const heldFirst = (
  { parts }: Corner,
  solids: readonly Solid[],
  thingOf: (partId: string) => string,
): Precedence[] =>
  solids.flatMap((solid) =>
    (solid.kind === 'bolts' ? (solid.seats ?? []) : []).flatMap(({ solidId }): Precedence[] => {
      const held = solids.find(({ id }) => id === solidId);
      if (held === undefined) return [];
      const [bolts, part] = [parts[solid.partIndex].id, parts[held.partIndex].id];
      const why = `${solid.label} hold ${held.label}`;
      return [{ earlier: thingOf(part), later: bolts, strict: false, why }];
    }),
  );

/** Whether precedences have one thing before another, or at once with it, by however many steps; a thing is before itself. */
export function comesBefore(precedences: readonly Precedence[], one: string, other: string): boolean {
  const before = new Set([other]);
  for (const id of before)
    for (const { earlier, later } of precedences) if (later === id) before.add(earlier);
  return before.has(one);
}

function sitsOn(entry: PartEntry, other: PartEntry): boolean {
  switch (entry.kind) {
    case 'hub':
      return other.kind === 'upright' || (other.kind === 'spacer' && other.place === 'upright');
    case 'rotor':
      return other.kind === 'hub';
    case 'caliper':
      return other.kind === 'rotor' || other.kind === 'upright';
    case 'wheel':
      return (
        other.kind === 'hub' || other.kind === 'rotor' || (other.kind === 'spacer' && other.place === 'wheel')
      );
    default:
      return false;
  }
}
