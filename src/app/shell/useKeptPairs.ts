import { useRef } from 'react';
import { pairId } from '../../sweep/pair.ts';
import { type Swept, useCorner } from '../state/cornerStore.ts';
import type { OpenCorner } from '../state/engine.ts';

export interface KeptPairs {
  /** The swept corner. After a change, the previous corner until the first rows of the changed one arrive. */
  of: OpenCorner;
  swept: Swept;
  isStale: boolean;
  /** Index in the current corner of a pair of `of`; undefined if it does not have the pair. */
  nowOf(pair: number): number | undefined;
}

/** Result of the last sweep of a file; undefined before the first. */
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
