/** To so many decimals; null for what is not a finite number. */
export function roundedTo(value: number, decimals: number): number | null {
  const scale = 10 ** decimals;
  return Number.isFinite(value) ? Math.round(value * scale) / scale : null;
}

/** To a millionth; null for what is not a finite number. */
export const rounded = (value: number): number | null => roundedTo(value, 6);

const MILLIONTHS = 1e6;
/** Beyond this a millionth is no more than rounding, and numbers are written with an exponent in the end. */
const MOST_WRITTEN = 1e8;
/** 0 to 999 in three digits, and the same without the zeros at its end. */
const THREE_DIGITS = Array.from({ length: 1000 }, (_, n) => String(n).padStart(3, '0'));
const TRIMMED = THREE_DIGITS.map((digits) => digits.replace(/0+$/, ''));

/** The JSON of a value to a millionth: that of `rounded`, sooner: a large sweep has millions. */
export function roundedText(value: number): string {
  if (!(Math.abs(value) < MOST_WRITTEN)) return JSON.stringify(rounded(value));
  const signed = Math.round(value * MILLIONTHS);
  const count = Math.abs(signed);
  const whole = Math.floor(count / MILLIONTHS);
  const rest = count - whole * MILLIONTHS;
  const text = signed < 0 ? `-${whole}` : `${whole}`;
  if (rest === 0) return text;
  const high = Math.floor(rest / 1000);
  const low = rest - 1000 * high;
  return low === 0 ? `${text}.${TRIMMED[high]}` : `${text}.${THREE_DIGITS[high]}${TRIMMED[low]}`;
}
