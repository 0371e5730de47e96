import { formatLength, type UnitChoice } from '../units/formatLength.ts';

/** Computed figures are decimal in either unit: a fraction of an inch is too coarse for a clearance and its error. */
export type LengthUnit = 'mm' | 'in';
const MM_PER: Record<LengthUnit, number> = { mm: 1, in: 25.4 };
/** Decimals of a clearance: a hundredth of a millimetre, a thousandth of an inch. */
const FINE: Record<LengthUnit, number> = { mm: 2, in: 3 };
/** Decimals of a place or a travel: a tenth of a millimetre, a hundredth of an inch. */
const COARSE: Record<LengthUnit, number> = { mm: 1, in: 2 };
/** Rounding of Float64 arithmetic, in units of the last figure shown: far above its noise, far below what shows. */
const NOISE = 1e-6;

/** A number with a real minus sign and no minus on zero. */
export function decimal(value: number, decimals: number, plus = false): string {
  const text = Math.abs(value).toFixed(decimals);
  const zero = Number(text) === 0;
  if (zero) return text;
  return value < 0 ? `−${text}` : plus ? `+${text}` : text;
}

export interface Figures {
  unit: LengthUnit;
  /** As a sentence names it. */
  unitName: 'mm' | 'inches';
  /** A clearance or a margin, rounded down: never more daylight than was computed. */
  least(mm: number): string;
  /**
   * A clearance with its error bar, which is widened by what the rounding took. With an infinite error, which a depth
   * without an upper bound has: "at least 19.20 deep", the depth rounded down.
   */
  withError(mm: number, errorMm: number): string;
  /** The same with the unit. */
  withErrorAndUnit(mm: number, errorMm: number): string;
  /** A margin, rounded down; "at most −24.30", rounded up, with the infinite error of a depth without an upper bound. */
  margin(mm: number, errorMm: number): string;
  /** A margin with its error bar, or a difference, with a plus where positive; "at most −24.30" as `margin`. */
  signedWithError(mm: number, errorMm: number): string;
  /** An error bound, rounded up. */
  bound(mm: number): string;
  /** A length that is given rather than measured: a target, an allowance. */
  given(mm: number): string;
  /** A place, a travel, a radius, to the nearest. */
  place(mm: number): string;
  /** As `place`, with a plus where positive. */
  signedPlace(mm: number): string;
  /** From one place to another, both with their sign, rounded outward. */
  span(lowMm: number, highMm: number): string;
  /** A volume in cm³ or in³, with its unit. */
  volume(mm3: number): string;
  /** These with the unit after them. */
  givenWithUnit(mm: number): string;
  /** A dimension in the unit as chosen, fractions of an inch included. */
  dimension(mm: number): string;
  placeWithUnit(mm: number): string;
  boundWithUnit(mm: number): string;
}

/** Figures in the chosen unit, inches as decimals whichever fraction is chosen. All arguments in mm. */
export function figuresIn(choice: UnitChoice): Figures {
  const unit = choice === 'mm' ? 'mm' : 'in';
  const per = MM_PER[unit];
  const step = 10 ** FINE[unit];
  const down = (mm: number) => Math.floor((mm / per) * step + NOISE) / step;
  const up = (mm: number) => (mm > 0 ? Math.max(1, Math.ceil((mm / per) * step - NOISE)) / step : 0);
  const coarse = 10 ** COARSE[unit];
  const outward = (mm: number, round: (value: number) => number) =>
    decimal(round((mm / per) * coarse) / coarse, COARSE[unit], true);
  const fine = (value: number) => decimal(value, FINE[unit]);
  const place = (mm: number, plus = false) => decimal(mm / per, COARSE[unit], plus);
  const bound = (mm: number) => fine(up(mm));
  const isOpen = (errorMm: number) => errorMm === Number.POSITIVE_INFINITY;
  const bar = (mm: number, errorMm: number) =>
    `${fine(down(mm))} ± ${fine(up(errorMm + (mm - down(mm) * per)))}`;
  const atLeastDeep = (mm: number, withUnit: string) =>
    down(-mm) > 0 ? `at least ${fine(down(-mm))}${withUnit} deep` : 'depth not known';
  const atMost = (mm: number) => `at most ${fine(0 - down(-mm))}`;
  // One figure more where the value has it: 3.175 mm is 1/8 in, and 3.17 is not.
  const given = (mm: number) => decimal(mm / per, FINE[unit] + 1).replace(/0$/, '');
  return {
    unit,
    unitName: unit === 'mm' ? 'mm' : 'inches',
    least: (mm) => fine(down(mm)),
    withError: (mm, errorMm) => (isOpen(errorMm) ? atLeastDeep(mm, '') : bar(mm, errorMm)),
    withErrorAndUnit: (mm, errorMm) =>
      isOpen(errorMm) ? atLeastDeep(mm, ` ${unit}`) : `${bar(mm, errorMm)} ${unit}`,
    margin: (mm, errorMm) => (isOpen(errorMm) ? atMost(mm) : fine(down(mm))),
    signedWithError: (mm, errorMm) =>
      isOpen(errorMm) ? atMost(mm) : `${Number(fine(down(mm))) > 0 ? '+' : ''}${bar(mm, errorMm)}`,
    bound,
    given,
    place: (mm) => place(mm),
    signedPlace: (mm) => place(mm, true),
    span: (lowMm, highMm) =>
      `${outward(lowMm, (value) => Math.floor(value + NOISE))} to ${outward(highMm, (value) => Math.ceil(value - NOISE))}`,
    volume: (mm3) =>
      unit === 'mm' ? `${decimal(mm3 / 1000, 2)} cm³` : `${decimal(mm3 / MM_PER.in ** 3, 3)} in³`,
    dimension: (mm) => formatLength(mm, choice),
    givenWithUnit: (mm) => `${given(mm)} ${unit}`,
    placeWithUnit: (mm) => `${place(mm)} ${unit}`,
    boundWithUnit: (mm) => `${bound(mm)} ${unit}`,
  };
}

/** An angle, by default to a tenth of a degree. */
export const angle = (degrees: number, decimals = 1): string => `${decimal(degrees, decimals)}°`;
/** The same with a plus where positive. */
export const signedAngle = (degrees: number, decimals = 1): string => `${decimal(degrees, decimals, true)}°`;

/** `1 pair`, `2 pairs`. */
export const counted = (count: number, one: string, many = `${one}s`): string =>
  `${count} ${count === 1 ? one : many}`;
