/** To so many decimals; null for what is not a finite number. */
export function roundedTo(value: number, decimals: number): number | null {
  const scale = 10 ** decimals;
  return Number.isFinite(value) ? Math.round(value * scale) / scale : null;
}

/** To a millionth; null for what is not a finite number. */
export const rounded = (value: number): number | null => roundedTo(value, 6);
