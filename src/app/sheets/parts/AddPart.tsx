import { useMemo } from 'react';
import { Menu } from '../../kit/Menu.tsx';
import { useCorner } from '../../state/cornerStore.ts';
import { currentSource, useDocument } from '../../state/documentStore.ts';
import type { OpenCorner } from '../../state/engine.ts';
import { type Addition, additions } from '../../state/partEdits.ts';
import { useSession } from '../../state/session.ts';
import { useView } from '../../state/viewStore.ts';

/** Menu of the kinds of parts. A part that is added is selected. */
export function AddPart({ corner }: { corner: OpenCorner }) {
  return <Menu label="Add part">{(close) => <Kinds corner={corner} onDone={close} />}</Menu>;
}

function Kinds({ corner, onDone }: { corner: OpenCorner; onDone(): void }) {
  const session = useSession();
  const source = useDocument(currentSource);
  const valid = useDocument((state) => state.problems.length === 0);
  const all = useMemo(() => additions(source, corner.design.corner), [source, corner]);
  const add = async ({ name, id, changed }: Addition) => {
    onDone();
    await session.change(`${name} added, dimensions not measured yet`, changed);
    const part = useCorner.getState().corner?.design.corner.parts.findIndex((entry) => entry.id === id);
    if (part !== undefined && part >= 0) useView.setState({ part });
  };
  if (!valid) return <p className="bench-kind">Correct the wrong values first.</p>;
  return (
    <>
      <p className="bench-kind">A new part has starting dimensions. Type in your own.</p>
      <ul>
        {all.map((addition) => (
          <li key={addition.kind}>
            <button
              type="button"
              disabled={addition.why !== undefined}
              title={addition.why}
              onClick={() => void add(addition)}
            >
              {addition.name}
              {addition.why !== undefined && <span className="bench-why">{addition.why}</span>}
            </button>
          </li>
        ))}
      </ul>
    </>
  );
}
