import { degreesIn } from '../../units/angle.ts';
import { parseLength } from '../../units/parseLength.ts';
import type { VariedField } from './variedField.ts';

/**
 * Parses a typed value of a dimension: mm, degrees or a plain number. A length without a unit is in the file's unit.
 * Throws an Error with the reason.
 */
export function amountFrom(
  text: string,
  { kind, name }: Pick<VariedField, 'kind' | 'name'>,
  unit: 'mm' | 'in' | undefined,
): number {
  if (kind === 'length') {
    const { mm, plusMinusMm } = parseLength(text, { unit });
    if (plusMinusMm === undefined) return mm;
    throw new Error(`"${text}" has a tolerance; write the length without it`);
  }
  const amount = degreesIn(text);
  if (!Number.isNaN(amount)) return amount;
  throw new Error(`"${text}" is not a number${kind === 'angle' ? ' of degrees' : ''}; ${name} needs one`);
}
