import { pairId } from '../sweep/pair.ts';
import type { OpenCorner } from './engine.ts';

/** Index of the pair of the same two parts in a changed corner; undefined where there is none any more. */
export function samePair(before: OpenCorner, pair: number, after: OpenCorner): number | undefined {
  const id = pairId(before.solids, before.pairs[pair]);
  const index = after.pairs.findIndex((one) => pairId(after.solids, one) === id);
  return index < 0 ? undefined : index;
}

/** Index of the same part in a changed corner; undefined where there is none any more. */
export function samePart(before: OpenCorner, part: number, after: OpenCorner): number | undefined {
  const [was, are] = [before.design.corner.parts, after.design.corner.parts];
  const index = are.findIndex((entry) => entry.id === was[part].id);
  if (index >= 0) return index;
  // A part of the same kind in its place is the same one by another name.
  return was.length === are.length && was[part].kind === are[part].kind ? part : undefined;
}
