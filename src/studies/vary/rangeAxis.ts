import { formatInches, formatLength } from '../../units/formatLength.ts';
import { type Axis, type AxisValue, MOST_VALUES } from './axis.ts';
import { type VariedField, withAmount } from './variedField.ts';

/** A range of a dimension: mm for a length, degrees for an angle, the numbers themselves otherwise. */
export interface Range {
  from: number;
  to: number;
  step: number;
  /** How closely a border is found; the default for the kind of field where absent. */
  within?: number;
}

const INCH_64 = 25.4 / 64;
/** A border is found this closely where nobody says otherwise: mm, or of an inch, and degrees. */
export const WITHIN = { mm: 0.1, in: INCH_64, angle: 0.1 } as const;
/** Far above the rounding of a sum of steps, far below what anyone measures. */
const EXACT = 1e-6;

/**
 * A dimension over a range, both ends among its values; the last step is shorter where the range is no whole number of
 * them. Lengths in inches are written as fractions where each is a whole number of 64ths. Throws an Error for a range
 * that runs backward, a step that is not above 0, and more than `MOST_VALUES` values.
 */
export function rangeAxis(field: VariedField, range: Range, unit: 'mm' | 'in'): Axis {
  const { from, to, step } = range;
  if (!(step > 0)) throw new Error('the step must be more than 0');
  if (!(to > from)) throw new Error('the end of the range must be more than its beginning');
  if (field.kind === 'count' && ![from, to, step].every(Number.isInteger))
    throw new Error(`"${field.name}" is a whole number: so must the range and its step be`);
  if (field.kind === 'count' && range.within !== undefined)
    throw new Error(`"${field.name}" is a whole number: no border lies between two of its values`);
  const steps = Math.ceil((to - from) / step - EXACT);
  if (steps + 1 > MOST_VALUES)
    throw new Error(`these are ${steps + 1} values; at most ${MOST_VALUES} are allowed: take a longer step`);
  const within = range.within ?? withinOf(field, unit);
  const amounts = Array.from({ length: steps + 1 }, (_, k) => (k === steps ? to : tidy(from + k * step)));
  const onLattice = [...amounts, within ?? 0].every(
    (mm) => Math.abs(64 * (mm / 25.4) - Math.round(64 * (mm / 25.4))) < EXACT,
  );
  const label = (amount: number): string => {
    if (field.kind === 'angle') return `${written(amount)}°`;
    if (field.kind !== 'length') return written(amount);
    if (unit === 'mm') return `${written(amount)} mm`;
    return onLattice ? formatInches(amount, 64) : formatLength(amount, 'in');
  };
  const at = (amount: number): AxisValue => ({
    label: label(amount),
    amount,
    change: (source) => withAmount(source, field, amount),
  });
  return {
    title: field.name,
    values: amounts.map(at),
    finer: within === undefined ? undefined : { by: within, at: (amount) => at(tidy(amount)) },
  };
}

/** A code or a count is what it is sold as: nothing lies between two of them. */
function withinOf({ kind }: VariedField, unit: 'mm' | 'in'): number | undefined {
  if (kind === 'length') return WITHIN[unit];
  return kind === 'angle' ? WITHIN.angle : undefined;
}

const tidy = (value: number): number => Number(value.toFixed(6));

/** To a thousandth, without zeros at the end, with a real minus sign. */
const written = (value: number): string => String(Number(value.toFixed(3))).replace('-', '−');
