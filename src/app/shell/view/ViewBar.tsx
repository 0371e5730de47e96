import type { OpenCorner } from '../../state/engine.ts';
import { type Standpoint, useView } from '../../state/viewStore.ts';
import { HoldButton } from '../../tools/hold/HoldButton.tsx';
import { SectionButton } from '../../tools/section/SectionButton.tsx';

const NAMES: readonly (readonly [Standpoint, string, string])[] = [
  ['threeQuarter', 'Inboard', 'From inboard, behind and above'],
  ['outboard', 'Outboard', 'From outside the vehicle'],
  ['rear', 'Rear', 'From behind'],
  ['top', 'Top', 'From above, front of the vehicle up'],
  ['axis', 'Along axis', 'From outboard along the wheel axis at this pose'],
];

/** Buttons of the standard views and of the view tools. */
export function ViewBar({ corner }: { corner: OpenCorner }) {
  const requestView = useView((view) => view.requestView);
  const seeThrough = useView((view) => view.seeThrough);
  const tape = useView((view) => view.tape);
  const gapTint = useView((view) => view.gapTint);
  const pictured = useView((view) => view.pictured);
  return (
    <div className="view-bars">
      <div className="view-bar" role="toolbar" aria-label="Views">
        {NAMES.map(([standpoint, name, title]) => (
          <button key={standpoint} type="button" title={title} onClick={() => requestView(standpoint)}>
            {name}
          </button>
        ))}
      </div>
      <div className="view-bar" role="toolbar" aria-label="View tools">
        <button
          type="button"
          aria-pressed={seeThrough}
          title="Make wheel and tyre transparent"
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
              ? 'Colour every surface by the gap to the nearest other part'
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
