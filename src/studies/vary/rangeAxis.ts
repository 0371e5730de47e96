import { formatInches, formatLength } from '../../units/formatLength.ts';
import { type Axis, type AxisValue, MAX_VALUES } from './axis.ts';
import { type VariedField, withAmount } from './variedField.ts';

/** A range of a dimension: mm for a length, degrees for an angle, otherwise the numbers themselves. */
export interface Range {
  from: number;
  to: number;
  step: number;
  /** Tolerance of a border; by default that of the kind of field. */
  within?: number;
}

const INCH_64 = 25.4 / 64;
/** Default tolerance of a border: mm, inches in 64ths, and degrees. */
const WITHIN = { mm: 0.1, in: INCH_64, angle: 0.1 } as const;
/** Far above the rounding of a sum of steps, far below any measurement. */
const EXACT = 1e-6;

/**
 * An axis of a dimension over a range that includes both ends. The last step is shorter if the range is not a whole
 * number of steps. Lengths in inches are written as fractions if each is a whole number of 64ths. Throws an Error for
 * a range that runs backward, a step that is not above 0, and more than `MAX_VALUES` values.
 */
export function rangeAxis(field: VariedField, range: Range, unit: 'mm' | 'in'): Axis {
  const { from, to, step } = range;
  if (!(step > 0)) throw new Error('the step must be greater than 0');
  if (!(to > from)) throw new Error('the end of the range must be greater than its start');
  if (field.kind === 'count' && ![from, to, step].every(Number.isInteger))
    throw new Error(
      `"${field.name}" is a whole number: the ends of the range and the step must be whole numbers too`,
    );
  if (field.kind === 'count' && range.within !== undefined)
    throw new Error(`"${field.name}" is a whole number: a border tolerance does not apply`);
  const steps = Math.ceil((to - from) / step - EXACT);
  if (steps + 1 > MAX_VALUES)
    throw new Error(
      `the range has ${steps + 1} values; at most ${MAX_VALUES} are allowed: use a larger step`,
    );
  const within = range.within ?? withinOf(field, unit);
  const amounts = Array.from({ length: steps + 1 }, (_, k) =>
    k === steps ? to : withoutRounding(from + k * step),
  );
  const areAll64ths = [...amounts, within ?? 0].every(
    (mm) => Math.abs(64 * (mm / 25.4) - Math.round(64 * (mm / 25.4))) < EXACT,
  );
  const label = (amount: number): string => {
    if (field.kind === 'angle') return `${written(amount)}°`;
    if (field.kind !== 'length') return written(amount);
    if (unit === 'mm') return `${written(amount)} mm`;
    return areAll64ths ? formatInches(amount, 64) : formatLength(amount, 'in');
  };
  const at = (amount: number): AxisValue => ({
    label: label(amount),
    amount,
    change: (source) => withAmount(source, field, amount),
  });
  return {
    title: field.name,
    values: amounts.map(at),
    finer: within === undefined ? undefined : { by: within, at: (amount) => at(withoutRounding(amount)) },
  };
}

/** A code or a count has no values in between. */
function withinOf({ kind }: VariedField, unit: 'mm' | 'in'): number | undefined {
  if (kind === 'length') return WITHIN[unit];
  return kind === 'angle' ? WITHIN.angle : undefined;
}

const withoutRounding = (value: number): number => Number(value.toFixed(6));

/** Rounded to a thousandth, without trailing zeros, with a real minus sign. */
const written = (value: number): string => String(Number(value.toFixed(3))).replace('-', '−');
