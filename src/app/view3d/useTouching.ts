import { useEffect, useState } from 'react';
import type { OpenCorner } from '../state/engine.ts';
import { touchingPairs } from '../state/measuredPair.ts';
import { usePose } from '../state/poseStore.ts';

const EMPTY: ReadonlySet<number> = new Set();

/** Indices of the solids that touch another at the last measured pose. Renders only when the set changes. */
export function useTouchingSolids(corner: OpenCorner): ReadonlySet<number> {
  const [touching, setTouching] = useState(EMPTY);
  useEffect(() => {
    const update = () => {
      const { measured } = usePose.getState();
      const pairs = measured === undefined ? [] : touchingPairs(corner, measured);
      const solids = new Set(pairs.flatMap((pair) => [corner.pairs[pair].a, corner.pairs[pair].b]));
      setTouching((before) =>
        before.size === solids.size && [...solids].every((one) => before.has(one)) ? before : solids,
      );
    };
    update();
    return usePose.subscribe((now, before) => {
      if (now.measured !== before.measured) update();
    });
  }, [corner]);
  return touching;
}
