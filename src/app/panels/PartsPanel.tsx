import type { Solid } from '../../solids/solid.ts';
import type { OpenCorner } from '../engine.ts';
import { useView } from '../stores/viewStore.ts';
import { PART_TONES } from '../tones.ts';
import { keyDimension } from './inputText.ts';
import { PartInputs } from './PartInputs.tsx';
import { partGroups } from './partGroups.ts';

/** The parts by what they move with, and the dimensions of the one in hand. */
export function PartsPanel({ corner }: { corner: OpenCorner }) {
  const part = useView((view) => view.part);
  return (
    <aside className="parts-panel" aria-label="Parts">
      <div className="parts-list">
        {partGroups(corner.solids).map(({ title, solids }) => (
          <section key={title} aria-label={title}>
            <h2>{title}</h2>
            <ul>
              {solids.map((solid) => (
                <PartRow key={solid.id} corner={corner} solid={solid} />
              ))}
            </ul>
          </section>
        ))}
      </div>
      {part !== undefined && <PartInputs corner={corner} part={part} />}
    </aside>
  );
}

function PartRow({ corner, solid }: { corner: OpenCorner; solid: Solid }) {
  const { hidden, part, unit, toggleHidden } = useView();
  const shown = !hidden.has(solid.id);
  const chosen = part === solid.partIndex;
  return (
    <li className="part" data-chosen={chosen}>
      <button
        type="button"
        className="part-eye"
        aria-pressed={shown}
        aria-label={`Show ${solid.label}`}
        title={shown ? 'Hide' : 'Show'}
        onClick={() => toggleHidden([solid.id])}
      >
        <span className="tone" style={{ ['--tone' as string]: PART_TONES[solid.kind] }} />
      </button>
      <button
        type="button"
        className="part-name"
        aria-pressed={chosen}
        onClick={() => useView.setState({ part: chosen ? undefined : solid.partIndex })}
      >
        <span>{solid.label}</span>
        <span className="part-key">
          {keyDimension(corner.design.inputs, solid, unit, corner.design.corner.unit)}
        </span>
      </button>
    </li>
  );
}
