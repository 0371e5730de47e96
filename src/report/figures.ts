import { formatLength, type UnitChoice } from '../units/formatLength.ts';

/** Unit of computed figures. They are decimal in inches too: fractions are too coarse for a clearance and its error. */
export type LengthUnit = 'mm' | 'in';
/** Millimetres in one unit. */
export const MM_PER_UNIT: Record<LengthUnit, number> = { mm: 1, in: 25.4 };
/** Decimals of a clearance: 0.01 mm, 0.001 in. */
const FINE: Record<LengthUnit, number> = { mm: 2, in: 3 };
/** Decimals of a place or a travel: 0.1 mm, 0.01 in. */
const COARSE: Record<LengthUnit, number> = { mm: 1, in: 2 };
/** Allowance for Float64 rounding, in units of the last decimal shown. */
const NOISE = 1e-6;

/** A number with a typographic minus sign, and no minus on zero. */
export function decimal(value: number, decimals: number, plus = false): string {
  const text = Math.abs(value).toFixed(decimals);
  const zero = Number(text) === 0;
  if (zero) return text;
  return value < 0 ? `−${text}` : plus ? `+${text}` : text;
}

export interface Figures {
  unit: LengthUnit;
  /** Name of the unit in a sentence. */
  unitName: 'mm' | 'inches';
  /** A clearance or a margin, rounded down. */
  least(mm: number): string;
  /**
   * A clearance rounded down, with its error bar widened by that rounding. If the error is infinite (a depth without an
   * upper bound): "at least 19.20 deep", the depth rounded down.
   */
  withError(mm: number, errorMm: number): string;
  /** As `withError`, with the unit. */
  withErrorAndUnit(mm: number, errorMm: number): string;
  /** A margin, rounded down. If the error is infinite: "at most −24.30", rounded up. */
  margin(mm: number, errorMm: number): string;
  /** A margin or a difference with its error bar and a plus sign if positive. If the error is infinite: as `margin`. */
  signedWithError(mm: number, errorMm: number): string;
  /** An error bound, rounded up. */
  bound(mm: number): string;
  /** A change of a length with its sign, rounded to the nearest as finely as clearances. */
  signedFine(mm: number): string;
  /** A given length, such as a target or an allowance. */
  given(mm: number): string;
  /** A place, a travel or a radius, rounded to the nearest. */
  place(mm: number): string;
  /** As `place`, with a plus sign if positive. */
  signedPlace(mm: number): string;
  /** A range of places with their signs, rounded outward. */
  span(lowMm: number, highMm: number): string;
  /** A volume in cm³ or in³, with its unit. */
  volume(mm3: number): string;
  givenWithUnit(mm: number): string;
  /** A dimension in the chosen unit, with fractions of an inch if chosen. */
  dimension(mm: number): string;
  placeWithUnit(mm: number): string;
  boundWithUnit(mm: number): string;
}

/** Formats figures in the chosen unit; inches are decimal even if fractions are chosen. All arguments are in mm. */
export function figuresIn(choice: UnitChoice): Figures {
  const unit = choice === 'mm' ? 'mm' : 'in';
  const per = MM_PER_UNIT[unit];
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
  // One more decimal if it is not zero: 1/8 in is 3.175 mm.
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
    signedFine: (mm) => decimal(mm / per, FINE[unit], true),
    given,
    place: (mm) => place(mm),
    signedPlace: (mm) => place(mm, true),
    span: (lowMm, highMm) =>
      `${outward(lowMm, (value) => Math.floor(value + NOISE))} to ${outward(highMm, (value) => Math.ceil(value - NOISE))}`,
    volume: (mm3) =>
      unit === 'mm' ? `${decimal(mm3 / 1000, 2)} cm³` : `${decimal(mm3 / MM_PER_UNIT.in ** 3, 3)} in³`,
    dimension: (mm) => formatLength(mm, choice),
    givenWithUnit: (mm) => `${given(mm)} ${unit}`,
    placeWithUnit: (mm) => `${place(mm)} ${unit}`,
    boundWithUnit: (mm) => `${bound(mm)} ${unit}`,
  };
}

/** A clearance with its mesh error, and in brackets in the other unit: "1.70 ± 0.11 mm (0.066 ± 0.006 in)". */
export function inBothUnits(mm: number, errorMm: number, figures: Figures): string {
  const other = figuresIn(figures.unit === 'mm' ? 'in' : 'mm');
  return `${figures.withErrorAndUnit(mm, errorMm)} (${other.withErrorAndUnit(mm, errorMm)})`;
}

/** An angle, by default to a tenth of a degree. */
export const angle = (degrees: number, decimals = 1): string => `${decimal(degrees, decimals)}°`;
/** As `angle`, with a plus sign if positive. */
export const signedAngle = (degrees: number, decimals = 1): string => `${decimal(degrees, decimals, true)}°`;

/** `1 pair`, `2 pairs`. */
export const counted = (count: number, one: string, many = `${one}s`): string =>
  `${count} ${count === 1 ? one : many}`;
