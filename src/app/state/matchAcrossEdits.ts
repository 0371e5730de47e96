import { pairId } from '../../sweep/pair.ts';
import type { OpenCorner } from './engine.ts';

/** Index of the pair of the same two parts in a changed corner; undefined if it no longer exists. */
export function samePair(before: OpenCorner, pair: number, after: OpenCorner): number | undefined {
  const id = pairId(before.solids, before.pairs[pair]);
  const index = after.pairs.findIndex((one) => pairId(after.solids, one) === id);
  return index < 0 ? undefined : index;
}

/** Index of the same part in a changed corner; undefined if it no longer exists. */
export function samePart(before: OpenCorner, part: number, after: OpenCorner): number | undefined {
  const [old, changed] = [before.design.corner.parts, after.design.corner.parts];
  const index = changed.findIndex((entry) => entry.id === old[part].id);
  if (index >= 0) return index;
  // A part of the same kind at the same index is the same part with a new id.
  return old.length === changed.length && old[part].kind === changed[part].kind ? part : undefined;
}
