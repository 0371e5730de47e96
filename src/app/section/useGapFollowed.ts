import { useEffect } from 'react';
import { pairId } from '../../sweep/pair.ts';
import type { OpenCorner } from '../engine.ts';
import { usePose } from '../stores/poseStore.ts';
import { useView } from '../stores/viewStore.ts';
import { gapInHand, laySection, useSection } from './sectionStore.ts';

/**
 * A section through a gap goes with the pair in hand: when another is chosen it is laid anew as soon as the gap is measured
 * where the corner then stands; when the corner is changed, if it still stands where the section was laid.
 */
export function useGapFollowed(corner: OpenCorner): void {
  useEffect(() => {
    const follow = () => {
      const { kind, gap } = useSection.getState();
      const { pair } = useView.getState();
      if (kind !== 'gap' || gap === undefined || pair === undefined) return;
      const isOther = gap.key !== pairId(corner.solids, corner.pairs[pair]);
      if (!isOther && gap.designHash === corner.design.hash) return;
      const now = gapInHand(corner);
      if (now === undefined) return;
      if (isOther) return laySection(corner, 'gap');
      // Of the same gap in a changed corner neither the view nor what was set by hand is given up.
      const isThere = now.travelMm === gap.travelMm && now.steer === gap.steer;
      if (isThere || gap.carrier !== 'chassis') useSection.setState({ gap: now });
    };
    // Whoever chooses a pair moves the corner to its tight spot in the same breath.
    let timer: ReturnType<typeof setTimeout> | undefined;
    const followSoon = () => {
      clearTimeout(timer);
      timer = setTimeout(follow);
    };
    const stops = [
      usePose.subscribe((now, before) => {
        if (now.measured !== before.measured) followSoon();
      }),
      useView.subscribe((now, before) => {
        if (now.pair !== before.pair) followSoon();
      }),
    ];
    followSoon();
    return () => {
      clearTimeout(timer);
      for (const stop of stops) stop();
    };
  }, [corner]);
}
