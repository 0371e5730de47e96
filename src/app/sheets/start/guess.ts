import { pathText } from '../../../design/path.ts';
import type { LengthUnit } from '../../../report/figures.ts';
import { formatInches } from '../../../units/formatLength.ts';

/** A value that is not measured. */
class Guess {
  readonly value: unknown;
  constructor(value: unknown) {
    this.value = value;
  }
}

export const guess = (value: unknown): Guess => new Guess(value);

/**
 * An entry of a file with its guesses replaced by their values and listed as assumed. A group or list of guesses alone is
 * listed as one. Undefined values are left out.
 */
export function withGuessesListed(entry: Record<string, unknown>): Record<string, unknown> {
  const [plain, listed] = plainOf(entry, []);
  const assumed = listed.some((path) => path.length === 0)
    ? Object.keys(plain as object)
    : listed.map((path) => pathText(path));
  return { ...(plain as Record<string, unknown>), ...(assumed.length > 0 ? { assumed } : {}) };
}

type Steps = (string | number)[];

function plainOf(value: unknown, path: Steps): [plain: unknown, listed: Steps[]] {
  if (value instanceof Guess) return [value.value, [path]];
  if (typeof value !== 'object' || value === null) return [value, []];
  const isList = Array.isArray(value);
  const held: [string | number, unknown][] = isList ? [...value.entries()] : Object.entries(value);
  const read = held
    .filter(([, child]) => child !== undefined)
    .map(([key, child]) => [key, ...plainOf(child, [...path, key])] as const);
  const plain = isList
    ? read.map(([, child]) => child)
    : Object.fromEntries(read.map(([k, child]) => [k, child]));
  const whole = read.every(([key, , listed]) =>
    listed.some((one) => one.length === path.length + 1 && one.at(-1) === key),
  );
  return [
    plain,
    path.length > 0 && read.length > 0 && whole ? [path] : read.flatMap(([, , listed]) => listed),
  ];
}

const EIGHTH_MM = 25.4 / 8;

/** A guessed length rounded to whole mm or eighths of an inch, mm. */
export const roundMm = (mm: number, unit: LengthUnit): number => Math.round(mm / stepMm(unit)) * stepMm(unit);

/** A length rounded up to whole mm or eighths of an inch, mm. */
export const roundUpMm = (mm: number, unit: LengthUnit): number =>
  Math.ceil(mm / stepMm(unit)) * stepMm(unit);

/** Rounding step of a unit, mm. */
export const stepMm = (unit: LengthUnit): number => (unit === 'mm' ? 1 : EIGHTH_MM);

/** A length for a file in the unit: a number of mm, or inches as text, a fraction if it is one, else to 0.001. */
export function lengthValue(mm: number, unit: LengthUnit): number | string {
  if (unit === 'mm') return Number(mm.toFixed(2));
  const fraction = formatInches(mm, 64);
  const text = fraction.endsWith(' in') ? fraction.slice(0, -' in'.length) : (mm / 25.4).toFixed(3);
  return text.replace('−', '-');
}
