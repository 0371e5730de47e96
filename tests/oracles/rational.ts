/** Exact rational numbers for tests: numerator and denominator, the denominator above 0. */
export type Rational = readonly [numerator: bigint, denominator: bigint];

/** Reads a decimal such as `-12.50` exactly. */
export function ofDecimal(text: string): Rational {
  const [whole, fraction = ''] = text.split('.');
  return [BigInt(whole + fraction), 10n ** BigInt(fraction.length)];
}

export const times = (a: Rational, b: Rational): Rational => [a[0] * b[0], a[1] * b[1]];
export const plus = (a: Rational, b: Rational): Rational => [a[0] * b[1] + b[0] * a[1], a[1] * b[1]];

/** The double nearest to `a`. Uses more decimals than any double needs and rounds once. */
export function toDouble(a: Rational): number {
  const scale = 10n ** 40n;
  return Number(`${(a[0] * scale) / a[1]}e-40`);
}
