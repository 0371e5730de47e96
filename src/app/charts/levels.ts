import { decimal, type LengthUnit } from '../../report/figures.ts';

export interface Level {
  mm: number;
  label: string;
}

const MM_PER: Record<LengthUnit, number> = { mm: 1, in: 25.4 };
const GAP_PX = 22;

/** Round values between `lowMm` and `highMm` in the unit, as close as labels can stand on `heightPx`: 1, 2, 5 x 10^n. */
export function levels(lowMm: number, highMm: number, heightPx: number, unit: LengthUnit): Level[] {
  const [low, high] = [lowMm / MM_PER[unit], highMm / MM_PER[unit]];
  if (!(high > low) || !(heightPx > 0)) return [];
  const least = (GAP_PX * (high - low)) / heightPx;
  const decade = 10 ** Math.floor(Math.log10(least));
  const step = decade * ([1, 2, 5].find((n) => n * decade >= least) ?? 10);
  const decimals = Math.max(0, -Math.floor(Math.log10(step) + 1e-9));
  const found: Level[] = [];
  for (let n = Math.ceil(low / step); n <= Math.floor(high / step); n++)
    found.push({ mm: n * step * MM_PER[unit], label: decimal(n * step, decimals) });
  return found;
}
