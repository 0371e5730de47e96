import { parseLength } from '../../units/parseLength.ts';
import type { VariedField } from './variedField.ts';

/**
 * A value of a dimension as a person types it, mm or degrees or the number itself. A length without a unit is in the
 * file's, as it is in the file. Throws an Error in words.
 */
export function amountFrom(
  text: string,
  { kind, name }: Pick<VariedField, 'kind' | 'name'>,
  unit: 'mm' | 'in' | undefined,
): number {
  if (kind === 'length') {
    const { mm, plusMinusMm } = parseLength(text, { unit });
    if (plusMinusMm === undefined) return mm;
    throw new Error(`"${text}" has a tolerance; write a plain length`);
  }
  const plain = text.replace('−', '-').replace(/\s*°$/, '');
  if (/^[+-]?\d+(\.\d+)?$/.test(plain)) return Number(plain);
  throw new Error(`"${text}" is no number${kind === 'angle' ? ' of degrees' : ''}, as ${name} is`);
}
