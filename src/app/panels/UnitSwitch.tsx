import { useView } from '../stores/viewStore.ts';

const UNITS = [
  ['mm', 'Millimetres'],
  ['in', 'Inches'],
] as const;

/** mm or inches, for every number on the screen and in the report. */
export function UnitSwitch() {
  const unit = useView((view) => view.unit);
  return (
    <fieldset className="switch">
      <legend className="unseen">Unit</legend>
      {UNITS.map(([name, title]) => (
        <button
          key={name}
          type="button"
          title={title}
          aria-pressed={unit === name}
          onClick={() => useView.setState({ unit: name })}
        >
          {name}
        </button>
      ))}
    </fieldset>
  );
}
