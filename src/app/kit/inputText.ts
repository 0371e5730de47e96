import type { InputRecord } from '../../design/design.ts';
import type { LengthUnit } from '../../report/figures.ts';
import { inWords } from '../../units/plainText.ts';
import { trimmed } from './words.ts';

const NAMES_UNIT = /[a-z"'′″]/i;

/** A length as typed, plus the file's unit if it has no unit of its own. */
export const withUnit = (typed: string, fileUnit: LengthUnit | undefined): string =>
  typed === '' || fileUnit === undefined || NAMES_UNIT.test(typed) ? typed : `${typed} ${fileUnit}`;

/**
 * Text of an input as shown. A typed text stays as typed, plus the file's unit if it has none. A length written as a plain
 * number (mm) is converted to `unit`; an angle is in degrees.
 */
export function inputText(
  { typed, value, quantity, path }: InputRecord,
  unit: LengthUnit,
  fileUnit: LengthUnit | undefined,
): string {
  if (typeof typed === 'string') return quantity === 'length' ? withUnit(typed, fileUnit ?? 'mm') : typed;
  if (typeof value === 'number' && quantity === 'length')
    return `${trimmed(value, unit, unit === 'mm' ? 2 : 3)} ${unit}`;
  if (typeof value === 'number' && (quantity === 'angle' || path.endsWith('Deg')))
    return `${String(value).replace('-', '−')}°`;
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  return inWords(String(value));
}
