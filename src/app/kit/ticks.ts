import { type LengthUnit, MM_PER_UNIT } from '../../report/figures.ts';

/** Unit of a rule: of a length, or degrees. */
export type RuleUnit = LengthUnit | '°';

export interface Tick {
  mm: number;
  /** 0 is the finest graduation. */
  level: 0 | 1 | 2;
  /** In the unit, with a sign; defined at level 2 only. */
  label: string | undefined;
}

/** Finest, middle and labelled graduation, in the unit; each divides the next. */
const LADDERS: Record<RuleUnit, readonly (readonly [number, number, number])[]> = {
  mm: [
    [1, 5, 10],
    [2, 10, 20],
    [5, 10, 50],
    [10, 50, 100],
    [20, 100, 200],
    [50, 100, 500],
    [100, 500, 1000],
  ],
  '°': [
    [0.5, 1, 5],
    [1, 5, 10],
    [5, 15, 30],
    [10, 30, 90],
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
/** Rounding tolerance at the ends of the rule, in graduations. */
const ROUNDING = 1e-9;

const QUARTERS: Record<string, string> = { '0.25': '¼', '0.5': '½', '0.75': '¾' };

/** A multiple of a quarter inch or a whole number of mm, with its sign, as on an engraved rule: "+2½". */
export function engraved(value: number): string {
  const size = Math.abs(value);
  const whole = Math.floor(size);
  const part = size - whole;
  const text = part === 0 ? String(whole) : `${whole === 0 ? '' : whole}${QUARTERS[part] ?? part}`;
  return value === 0 ? '0' : value < 0 ? `−${text}` : `+${text}`;
}

/** Graduations of a rule `lengthPx` long between two ends (mm or degrees, in either order), as fine as they can be distinguished. */
export function ticks(fromMm: number, toMm: number, lengthPx: number, unit: RuleUnit): Tick[] {
  const perUnit = unit === '°' ? 1 : MM_PER_UNIT[unit];
  const [low, high] = [Math.min(fromMm, toMm) / perUnit, Math.max(fromMm, toMm) / perUnit];
  if (!(high > low) || !(lengthPx > 0)) return [{ mm: 0, level: 2, label: '0' }];
  const pxPer = lengthPx / (high - low);
  const ladder =
    LADDERS[unit].find(([fine, , label]) => fine * pxPer >= FINEST_GAP_PX && label * pxPer >= LABEL_GAP_PX) ??
    LADDERS[unit][LADDERS[unit].length - 1];
  const [fine, middle, label] = ladder;
  const found: Tick[] = [];
  for (let n = Math.ceil(low / fine - ROUNDING); n <= Math.floor(high / fine + ROUNDING); n++) {
    const level = n % Math.round(label / fine) === 0 ? 2 : n % Math.round(middle / fine) === 0 ? 1 : 0;
    found.push({
      mm: n * fine * perUnit,
      level,
      label: level === 2 ? engraved(n * fine) : undefined,
    });
  }
  return found;
}

/** Keyboard steps along a rule, mm or degrees. */
export const KEY_STEPS_MM: Record<RuleUnit, { small: number; large: number }> = {
  mm: { small: 1, large: 10 },
  in: { small: 25.4 / 16, large: 25.4 / 2 },
  '°': { small: 0.5, large: 5 },
};
