import { useMemo } from 'react';
import type { OpenCorner } from '../engine.ts';
import { useSession } from '../session.ts';
import { useCorner } from '../stores/cornerStore.ts';
import { sourceInHand, useDocument } from '../stores/documentStore.ts';
import { useView } from '../stores/viewStore.ts';
import { Menu } from './Menu.tsx';
import { type Addition, additions } from './partEdits.ts';

/** A menu of the kinds of parts; one that is added comes into hand. */
export function AddPart({ corner }: { corner: OpenCorner }) {
  return <Menu label="Add part">{(close) => <Kinds corner={corner} onDone={close} />}</Menu>;
}

function Kinds({ corner, onDone }: { corner: OpenCorner; onDone(): void }) {
  const session = useSession();
  const source = useDocument(sourceInHand);
  const sound = useDocument((state) => state.problems.length === 0);
  const all = useMemo(() => additions(source, corner.design.corner), [source, corner]);
  const add = async ({ name, id, changed }: Addition) => {
    onDone();
    await session.change(`${name} added, dimensions not measured yet`, changed);
    const part = useCorner.getState().corner?.design.corner.parts.findIndex((entry) => entry.id === id);
    if (part !== undefined && part >= 0) useView.setState({ part });
  };
  if (!sound) return <p className="bench-kind">Mend what is wrong with the file first.</p>;
  return (
    <>
      <p className="bench-kind">Dimensions to start from come with it: type in your own.</p>
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
