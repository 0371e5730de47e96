import type { InchDenominator } from '../../units/formatLength.ts';
import { useView } from '../state/viewStore.ts';

const UNITS = [
  ['mm', 'Millimetres'],
  ['in', 'Inches'],
] as const;

const FRACTIONS: readonly InchDenominator[] = [16, 32, 64];

/** Unit of every number on the screen and in the report, and the fraction of an inch shown beside decimals. */
export function UnitSwitch() {
  const unit = useView((view) => view.unit);
  const fraction = useView((view) => view.fraction);
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
      {unit === 'in' && (
        <select
          aria-label="Nearest fraction"
          title="Show the nearest fraction of an inch beside the decimals of a gap and of the tape"
          value={fraction ?? ''}
          onChange={({ target }) =>
            useView.setState({ fraction: FRACTIONS.find((one) => `${one}` === target.value) })
          }
        >
          <option value="">decimal</option>
          {FRACTIONS.map((one) => (
            <option key={one} value={one}>
              1/{one}
            </option>
          ))}
        </select>
      )}
    </fieldset>
  );
}
