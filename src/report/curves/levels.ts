import { decimal, type LengthUnit, MM_PER_UNIT } from '../figures.ts';

interface Level {
  mm: number;
  label: string;
}

const GAP_PX = 22;

/** Round values (1, 2 or 5 × 10^n) in the unit between `lowMm` and `highMm`, as dense as labels fit on `heightPx`. */
export function levels(lowMm: number, highMm: number, heightPx: number, unit: LengthUnit): Level[] {
  const [low, high] = [lowMm / MM_PER_UNIT[unit], highMm / MM_PER_UNIT[unit]];
  if (!(high > low) || !(heightPx > 0)) return [];
  const least = (GAP_PX * (high - low)) / heightPx;
  const decade = 10 ** Math.floor(Math.log10(least));
  const step = decade * ([1, 2, 5].find((n) => n * decade >= least) ?? 10);
  const decimals = Math.max(0, -Math.floor(Math.log10(step) + 1e-9));
  const found: Level[] = [];
  for (let n = Math.ceil(low / step); n <= Math.floor(high / step); n++)
    found.push({ mm: n * step * MM_PER_UNIT[unit], label: decimal(n * step, decimals) });
  return found;
}
