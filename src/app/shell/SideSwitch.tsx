import { useEffect } from 'react';
import { useView } from '../state/viewStore.ts';

const SIDES = [
  ['parts', 'Parts'],
  ['pairs', 'Clearances'],
] as const;

/** Switches between the side panels in a narrow window. Selecting a part shows the parts. */
export function SideSwitch() {
  const side = useView((view) => view.side);
  const part = useView((view) => view.part);
  useEffect(() => {
    if (part !== undefined) useView.setState({ side: 'parts' });
  }, [part]);
  return (
    <fieldset className="switch side-switch">
      <legend className="unseen">Side panel</legend>
      {SIDES.map(([name, text]) => (
        <button
          key={name}
          type="button"
          aria-pressed={side === name}
          onClick={() => useView.setState({ side: name })}
        >
          {text}
        </button>
      ))}
    </fieldset>
  );
}
