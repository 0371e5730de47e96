/** Rounded to `decimals` decimals; null if not finite. */
export function roundedTo(value: number, decimals: number): number | null {
  const scale = 10 ** decimals;
  return Number.isFinite(value) ? Math.round(value * scale) / scale : null;
}

/** Rounded to 1e-6; null if not finite. */
export const rounded = (value: number): number | null => roundedTo(value, 6);

const MILLIONTHS = 1e6;
/** Beyond this, 1e-6 is below the rounding of Float64, and numbers may be written with an exponent. */
const MOST_WRITTEN = 1e8;
/** 0 to 999 in three digits; `TRIMMED` has no trailing zeros. */
const THREE_DIGITS = Array.from({ length: 1000 }, (_, n) => String(n).padStart(3, '0'));
const TRIMMED = THREE_DIGITS.map((digits) => digits.replace(/0+$/, ''));

/** The JSON of `rounded(value)`, computed faster: a large sweep has millions of values. */
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
