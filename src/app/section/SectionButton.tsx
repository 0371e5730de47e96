import type { OpenCorner } from '../engine.ts';
import { endSection, gapInHand, laySection, useSection } from './sectionStore.ts';

/** Cuts the corner open, through the gap of the pair in hand where there is one, else through the wheel axis. */
export function SectionButton({ corner }: { corner: OpenCorner }) {
  const on = useSection((section) => section.kind !== undefined);
  return (
    <button
      type="button"
      aria-pressed={on}
      title="Cut the corner open along a plane"
      onClick={() => {
        if (on) endSection();
        else laySection(corner, gapInHand(corner) === undefined ? 'upright' : 'gap');
      }}
    >
      Section
    </button>
  );
}
