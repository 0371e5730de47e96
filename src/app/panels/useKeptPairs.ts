import { useRef } from 'react';
import { pairId } from '../../sweep/pair.ts';
import type { OpenCorner } from '../engine.ts';
import { type Swept, useCorner } from '../stores/cornerStore.ts';

export interface KeptPairs {
  /** The corner that was swept: that of before a change until the first rows of the changed one come. */
  of: OpenCorner;
  swept: Swept;
  isStale: boolean;
  /** The pair of the corner in hand that is the same as one of `of`; undefined where it has none. */
  nowOf(pair: number): number | undefined;
}

/** What the last sweep of a file found; undefined until there is any. */
export function useKeptPairs(corner: OpenCorner): KeptPairs | undefined {
  const swept = useCorner((state) => state.swept);
  const last = useRef<{ of: OpenCorner; swept: Swept }>(undefined);
  if (swept !== undefined) last.current = { of: corner, swept };
  const kept = last.current;
  if (kept === undefined) return undefined;
  const { of } = kept;
  if (of === corner) return { ...kept, isStale: false, nowOf: (pair) => pair };
  const places = new Map(corner.pairs.map((pair, index) => [pairId(corner.solids, pair), index]));
  return { ...kept, isStale: true, nowOf: (pair) => places.get(pairId(of.solids, of.pairs[pair])) };
}
