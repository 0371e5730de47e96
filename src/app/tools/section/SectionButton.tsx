import type { OpenCorner } from '../../state/engine.ts';
import { endSection, placeSection, selectedGap, useSection } from '../../state/sectionStore.ts';

/** Switches the section on or off. It starts at the gap of the selected pair if there is one, else at the wheel axis. */
export function SectionButton({ corner }: { corner: OpenCorner }) {
  const on = useSection((section) => section.kind !== undefined);
  return (
    <button
      type="button"
      aria-pressed={on}
      title="Cut the corner open along a plane"
      onClick={() => {
        if (on) endSection();
        else placeSection(corner, selectedGap(corner) === undefined ? 'upright' : 'gap');
      }}
    >
      Section
    </button>
  );
}
