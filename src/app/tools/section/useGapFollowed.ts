import { useEffect } from 'react';
import { pairId } from '../../../sweep/pair.ts';
import type { OpenCorner } from '../../state/engine.ts';
import { usePose } from '../../state/poseStore.ts';
import { placeSection, selectedGap, useSection } from '../../state/sectionStore.ts';
import { useView } from '../../state/viewStore.ts';

/**
 * Keeps a section through a gap at the selected pair. When another pair is selected, the section is placed again once that
 * pair's gap is measured. When the corner changes, it is placed again only if the corner is still at the section's pose.
 */
export function useGapFollowed(corner: OpenCorner): void {
  useEffect(() => {
    const follow = () => {
      const { kind, gap } = useSection.getState();
      const { pair } = useView.getState();
      if (kind !== 'gap' || gap === undefined || pair === undefined) return;
      const isOther = gap.key !== pairId(corner.solids, corner.pairs[pair]);
      if (!isOther && gap.designHash === corner.design.hash) return;
      const now = selectedGap(corner);
      if (now === undefined) return;
      if (isOther) return placeSection(corner, 'gap');
      // For the same gap in a changed corner, the view and the offsets stay.
      const isThere = now.travelMm === gap.travelMm && now.steer === gap.steer;
      if (isThere || gap.carrier !== 'chassis') useSection.setState({ gap: now });
    };
    // Choosing a pair also moves the corner: wait until both stores are updated.
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
