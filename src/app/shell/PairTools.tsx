import { type OwnSheet, useView } from '../state/viewStore.ts';

/** Buttons of the sheets about the selected pair. */
const SHEETS: readonly (readonly [OwnSheet, text: string])[] = [
  ['remedy', 'Remedies'],
  ['measuringError', 'Measuring error'],
  ['mockup', 'Mock-up'],
];

/** Opens and closes the sheets about the selected pair, in the column of the parts. */
export function PairTools() {
  const open = useView(({ part, sheet }) => (part === undefined ? sheet : undefined));
  const toggle = (name: OwnSheet) =>
    useView.setState({ part: undefined, side: 'parts', sheet: open === name ? undefined : name });
  return (
    <div className="bench-tools">
      {SHEETS.map(([name, text]) => (
        <button key={name} type="button" aria-pressed={open === name} onClick={() => toggle(name)}>
          {text}
        </button>
      ))}
    </div>
  );
}
