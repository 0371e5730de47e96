/** To a millionth; null for what is not a finite number. */
export const rounded = (value: number): number | null =>
  Number.isFinite(value) ? Math.round(value * 1e6) / 1e6 : null;
