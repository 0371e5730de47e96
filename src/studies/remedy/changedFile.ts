import { withGiven } from '../../design/assumed.ts';
import type { Design } from '../../design/design.ts';
import { valueAt } from '../../design/path.ts';
import { withHubKept } from '../../solids/heldHub.ts';
import { formatInches } from '../../units/formatLength.ts';
import { withAmount } from '../vary/variedField.ts';
import type { Choices } from './choices.ts';

/** A change of one value. */
export interface Change {
  choices: Choices;
  /** The new value: mm (the height of a point from the file's origin) or degrees. */
  to: number;
  /** The new value as the file holds it, in the way in which the old one is typed. */
  typed: string | number;
}

/** A change to one of the choices. `step` counts from 1. */
export function changeTo({ source }: Pick<Design, 'source'>, choices: Choices, step: number): Change {
  const to = choices.amounts[step - 1];
  return { choices, to, typed: typedFor(source, choices, to) };
}

/** Lengths in inches are fractions; a unit is written if the old value has one, or is a plain number of mm. */
function typedFor(source: unknown, { input: { field }, unit }: Choices, amount: number): string | number {
  const number = Number(amount.toFixed(6));
  const typed = valueAt(source, field.path);
  const isText = typeof typed === 'string';
  if (field.kind === 'angle' || (unit === 'mm' && !isText)) return number;
  const withUnit = unit === 'mm' ? `${number} mm` : formatInches(amount, 64).replace('−', '-');
  const hasUnit = !isText || /[a-z"'″”′’]/i.test(typed);
  return hasUnit ? withUnit : withUnit.replace(/ (mm|in)$/, '');
}

/** The file, as JSON, with changes; the changed values count as given. */
export const withChanges = (source: unknown, changes: readonly Change[]): unknown =>
  changes.reduce<unknown>(
    (file, { choices: { input }, to, typed }) =>
      withGiven(withAmount(file, input.field, to), input.field.path, typed),
    source,
  );

/**
 * The file of a corner, as JSON, with the changes of a remedy, to be applied as one change. The hub stays where the study
 * held it: see `withHubKept`.
 */
export const withRemedy = (design: Design, changes: readonly Change[]): unknown =>
  withHubKept(design, withChanges(design.source, changes));
