import type { OpenCorner } from '../engine.ts';
import { HoldButton } from '../hold/HoldButton.tsx';
import { SectionButton } from '../section/SectionButton.tsx';
import { type Standpoint, useView } from '../stores/viewStore.ts';

const NAMES: readonly (readonly [Standpoint, string, string])[] = [
  ['threeQuarter', 'Inboard', 'From inboard, behind and above'],
  ['outboard', 'Outboard', 'From outside the vehicle'],
  ['rear', 'Rear', 'From behind'],
  ['top', 'Top', 'From above, front of the vehicle up'],
  ['axis', 'Along axis', 'From outboard along the wheel axis as it stands'],
];

/** Where to look from, and what to look at it with. */
export function ViewBar({ corner }: { corner: OpenCorner }) {
  const lookFrom = useView((view) => view.lookFrom);
  const seeThrough = useView((view) => view.seeThrough);
  const tape = useView((view) => view.tape);
  const gapTint = useView((view) => view.gapTint);
  const pictured = useView((view) => view.pictured);
  return (
    <div className="view-bars">
      <div className="view-bar" role="toolbar" aria-label="Views">
        {NAMES.map(([standpoint, name, title]) => (
          <button key={standpoint} type="button" title={title} onClick={() => lookFrom(standpoint)}>
            {name}
          </button>
        ))}
      </div>
      <div className="view-bar" role="toolbar" aria-label="Looking in">
        <button
          type="button"
          aria-pressed={seeThrough}
          title="Draw wheel and tyre so that what is inside shows"
          onClick={() => useView.setState({ seeThrough: !seeThrough })}
        >
          Glass wheel
        </button>
        <button
          type="button"
          aria-pressed={tape}
          title="Measure between two points, edges, faces or holes"
          onClick={() => useView.setState({ tape: !tape })}
        >
          Tape
        </button>
        <button
          type="button"
          aria-pressed={gapTint && pictured}
          disabled={!pictured}
          title={
            pictured
              ? 'Tint every surface by how near the nearest other part is'
              : 'Outlines have no surfaces to tint'
          }
          onClick={() => useView.setState({ gapTint: !gapTint })}
        >
          Gap tint
        </button>
        <SectionButton corner={corner} />
        <HoldButton />
      </div>
    </div>
  );
}
