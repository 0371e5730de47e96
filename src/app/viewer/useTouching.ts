import { useEffect, useState } from 'react';
import type { OpenCorner } from '../engine.ts';
import { touchingPairs } from '../stores/measuredPair.ts';
import { usePose } from '../stores/poseStore.ts';

const NONE: ReadonlySet<number> = new Set();

/** Indices of the solids that touch another at the pose last measured. Renders only when the set changes. */
export function useTouchingSolids(corner: OpenCorner): ReadonlySet<number> {
  const [touching, setTouching] = useState(NONE);
  useEffect(() => {
    const follow = () => {
      const { measured } = usePose.getState();
      const pairs = measured === undefined ? [] : touchingPairs(corner, measured);
      const solids = new Set(pairs.flatMap((pair) => [corner.pairs[pair].a, corner.pairs[pair].b]));
      setTouching((before) =>
        before.size === solids.size && [...solids].every((one) => before.has(one)) ? before : solids,
      );
    };
    follow();
    return usePose.subscribe((now, before) => {
      if (now.measured !== before.measured) follow();
    });
  }, [corner]);
  return touching;
}
