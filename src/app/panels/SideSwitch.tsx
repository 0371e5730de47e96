import { useEffect } from 'react';
import { useView } from '../stores/viewStore.ts';

const SIDES = [
  ['parts', 'Parts'],
  ['pairs', 'Clearances'],
] as const;

/** Where there is no room for both side panels, which of them is shown. A part that comes into hand brings its own. */
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
