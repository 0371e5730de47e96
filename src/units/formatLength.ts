/** Units in which lengths are shown: mm, thousandths of an inch, or fractions of an inch. */
export const UNIT_CHOICES = ['mm', 'in', 'in/16', 'in/32', 'in/64'] as const;
export type UnitChoice = (typeof UNIT_CHOICES)[number];
export type InchDenominator = 16 | 32 | 64;

/** A value this near a fraction is shown as exact, mm: far finer than anyone measures or cuts. */
const EXACT_MM = 1e-6;
const MINUS = '−';

/**
 * The nearest fraction: `3 7/16 in`. If the value is not that fraction, a mark follows: `3 7/16 in +` is a little
 * more than 3 7/16 and `3 7/16 in −` a little less, both regardless of the sign in front. A negative value keeps its
 * sign even if its fraction is 0. Throws a RangeError for a value that is not finite.
 */
export function formatInches(mm: number, denominator: InchDenominator): string {
  requireFinite(mm);
  const size = Math.abs(mm);
  const steps = Math.round((size * denominator * 5) / 127);
  const remainder = size - (steps * 127) / (5 * denominator);
  const exact = Math.abs(remainder) <= EXACT_MM;
  const sign = mm < 0 && !(exact && steps === 0) ? MINUS : '';
  const mark = exact ? '' : remainder > 0 ? ' +' : ` ${MINUS}`;
  return `${sign}${mixedNumber(steps, denominator)} in${mark}`;
}

/** `139.70 mm`: rounded to `decimals` places. A negative value keeps its sign even if it rounds to 0. */
export function formatMm(mm: number, decimals = 2): string {
  return `${fixed(mm, decimals)} mm`;
}

/** Decimals of a length in a problem message: finer than anyone measures. */
const PROBLEM_DECIMALS = { mm: 3, in: 4 };
/** A limit this near a decimal, in its unit, counts as that decimal. */
const NOISE = 1e-9;

/**
 * A length in the file's unit, for problems of a file: `38.1 mm`, `1.5 in`. A limit is rounded `up` or `down` so that
 * the shown value is allowed; other lengths to the nearest. `unit` undefined: mm.
 */
export function lengthText(
  mm: number,
  unit: 'mm' | 'in' | undefined,
  rounding: 'nearest' | 'up' | 'down' = 'nearest',
): string {
  const name = unit ?? 'mm';
  const value = name === 'in' ? mm / 25.4 : mm;
  const scale = 10 ** PROBLEM_DECIMALS[name];
  const round = {
    nearest: Math.round,
    up: (scaled: number) => Math.ceil(scaled - NOISE * scale),
    down: (scaled: number) => Math.floor(scaled + NOISE * scale),
  }[rounding];
  return `${Number((round(value * scale) / scale).toFixed(PROBLEM_DECIMALS[name]))} ${name}`;
}

/** A length in the file's unit, for problems of a built corner: `38.10 mm`, `1.5 in`. `unit` undefined: mm. */
export const builtLengthText = (mm: number, unit: 'mm' | 'in' | undefined): string =>
  unit === 'in' ? lengthText(mm, unit) : formatMm(mm);

/** A length in the chosen unit, for the screen, the command line and the reports; mm to 2 places. */
export function formatLength(mm: number, choice: UnitChoice): string {
  switch (choice) {
    case 'mm':
      return formatMm(mm);
    case 'in':
      return `${fixed(mm / 25.4, 3)} in`;
    case 'in/16':
      return formatInches(mm, 16);
    case 'in/32':
      return formatInches(mm, 32);
    case 'in/64':
      return formatInches(mm, 64);
  }
}

function mixedNumber(steps: number, denominator: number): string {
  const whole = Math.floor(steps / denominator);
  let [n, d] = [steps % denominator, denominator];
  if (n === 0) return `${whole}`;
  while (n % 2 === 0) [n, d] = [n / 2, d / 2];
  return whole === 0 ? `${n}/${d}` : `${whole} ${n}/${d}`;
}

function fixed(value: number, decimals: number): string {
  requireFinite(value);
  return value.toFixed(decimals).replace('-', MINUS);
}

function requireFinite(value: number): void {
  if (!Number.isFinite(value)) throw new RangeError(`${value} is not a length`);
}
