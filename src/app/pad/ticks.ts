import type { LengthUnit } from '../../report/figures.ts';

export interface Tick {
  mm: number;
  /** 0 is the finest graduation. */
  level: 0 | 1 | 2;
  /** At level 2 alone, in the unit, with a sign. */
  label: string | undefined;
}

const MM_PER: Record<LengthUnit, number> = { mm: 1, in: 25.4 };
/** Finest, middle and labelled graduation, in the unit; each divides the next. */
const LADDERS: Record<LengthUnit, readonly (readonly [number, number, number])[]> = {
  mm: [
    [1, 5, 10],
    [2, 10, 20],
    [5, 10, 50],
    [10, 50, 100],
    [20, 100, 200],
    [50, 100, 500],
    [100, 500, 1000],
  ],
  in: [
    [1 / 16, 1 / 4, 1 / 2],
    [1 / 8, 1 / 2, 1],
    [1 / 4, 1, 2],
    [1 / 2, 1, 5],
    [1, 5, 10],
    [5, 10, 50],
    [10, 50, 100],
  ],
};
const FINEST_GAP_PX = 4.5;
const LABEL_GAP_PX = 44;
/** How far beyond an end a graduation may fall by rounding and still belong, in graduations. */
const ROUNDING = 1e-9;

const HALVES: Record<string, string> = { '0.25': '¼', '0.5': '½', '0.75': '¾' };

/** A multiple of a quarter inch or a whole number of mm, as rules are engraved, with its sign. */
export function engraved(value: number): string {
  const size = Math.abs(value);
  const whole = Math.floor(size);
  const part = size - whole;
  const text = part === 0 ? String(whole) : `${whole === 0 ? '' : whole}${HALVES[part] ?? part}`;
  return value === 0 ? '0' : value < 0 ? `−${text}` : `+${text}`;
}

/** Graduations of a rule between two ends (either way round) drawn `lengthPx` long: as fine as can be told apart. */
export function ticks(fromMm: number, toMm: number, lengthPx: number, unit: LengthUnit): Tick[] {
  const [low, high] = [Math.min(fromMm, toMm) / MM_PER[unit], Math.max(fromMm, toMm) / MM_PER[unit]];
  if (!(high > low) || !(lengthPx > 0)) return [{ mm: 0, level: 2, label: '0' }];
  const pxPer = lengthPx / (high - low);
  const ladder =
    LADDERS[unit].find(([fine, , label]) => fine * pxPer >= FINEST_GAP_PX && label * pxPer >= LABEL_GAP_PX) ??
    LADDERS[unit][LADDERS[unit].length - 1];
  const [fine, middle, label] = ladder;
  const found: Tick[] = [];
  for (let n = Math.ceil(low / fine - ROUNDING); n <= Math.floor(high / fine + ROUNDING); n++) {
    const level = n % Math.round(label / fine) === 0 ? 2 : n % Math.round(middle / fine) === 0 ? 1 : 0;
    found.push({ mm: n * fine * MM_PER[unit], level, label: level === 2 ? engraved(n * fine) : undefined });
  }
  return found;
}

/** Keyboard steps along a rule, mm: one graduation of a fine rule, and a large one. */
export const KEY_STEPS_MM: Record<LengthUnit, { small: number; large: number }> = {
  mm: { small: 1, large: 10 },
  in: { small: 25.4 / 16, large: 25.4 / 2 },
};
