import { useDeferredValue, useMemo } from 'react';
import type { OpenCorner } from '../engine.ts';
import { type Swept, useCorner } from './cornerStore.ts';

/**
 * What the sweep of the corner in hand has found, in a task after the one that shows it in the list of pairs, so that no
 * task is long. Never what was found of another corner.
 */
export function useSweptLater(corner: OpenCorner): Swept | undefined {
  const swept = useCorner((state) => state.swept);
  const now = useMemo(() => ({ corner, swept }), [corner, swept]);
  const later = useDeferredValue(now);
  return later.corner === corner && swept !== undefined ? later.swept : undefined;
}
