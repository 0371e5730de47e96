import type { Change } from '../../studies/remedy/changedFile.ts';
import { formatInches } from '../../units/formatLength.ts';

/** A value as typed, with a unit: `5 1/4 in`, `28 mm`, `15°`. */
function typedWithUnit(typed: string, { choices: { input, unit } }: Change): string {
  const text = typed.replace('-', '−');
  if (input.field.kind === 'angle') return `${text}°`;
  return /[a-z"'″”′’]/i.test(text) ? text : `${text} ${unit}`;
}

/** The value in the file. A plain number of mm is shown in the unit of the new value. */
function oldInWords(change: Change): string {
  const { input, from, unit } = change.choices;
  const { typed } = input.input;
  if (typeof typed === 'string') return typedWithUnit(typed, change);
  if (input.field.kind === 'length' && unit === 'in') return formatInches(from, 64);
  return typedWithUnit(String(Number(from.toFixed(6))), change);
}

/** "wheel.backspacing 5 1/4 in to 4 1/2 in (sold in steps of 1/8 in)", without the note if the part is made. */
function changeInWords(change: Change): string {
  const { input, step, isBought } = change.choices;
  const sold = isBought ? ` (sold in steps of ${soldStep(step)})` : '';
  return `${input.field.name} ${oldInWords(change)} to ${typedWithUnit(String(change.typed), change)}${sold}`;
}

/** Steps of sold parts are eighths or quarters of an inch, or whole mm. */
const soldStep = (mm: number): string =>
  Number.isInteger(mm) ? `${mm} mm` : `1/${Math.round(25.4 / mm)} in`;

/** The changes of a remedy in a row. */
export const changesInWords = (changes: readonly Change[]): string =>
  changes.map(changeInWords).join(' and ');
