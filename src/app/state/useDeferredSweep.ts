import { useDeferredValue, useMemo } from 'react';
import { type Swept, useCorner } from './cornerStore.ts';
import type { OpenCorner } from './engine.ts';

/**
 * Sweep result of the current corner, deferred to a task after the one that updates the pair list, so that no task is long.
 * Never returns the result of another corner.
 */
export function useDeferredSweep(corner: OpenCorner): Swept | undefined {
  const swept = useCorner((state) => state.swept);
  const now = useMemo(() => ({ corner, swept }), [corner, swept]);
  const deferred = useDeferredValue(now);
  return deferred.corner === corner && swept !== undefined ? deferred.swept : undefined;
}
