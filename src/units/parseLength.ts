/**
 * Lengths as a builder types them: `1/4`, `3 7/16"`, `3-7/16 in ±1/32`, `5' 2 1/2"`, `139,7 mm`, `.090 in`,
 * `139.7 mm ±0.5`, `−12 mm`, `12"3/8`, `90 thou`.
 *
 * - A sign applies to the whole number that follows, fraction included.
 * - A point and a comma are both decimal marks and never separate thousands. `1,234` is ambiguous, so it is rejected.
 * - A fraction is less than one. `37/16` is more often `3 7/16` without its space than 2 5/16, so it is rejected.
 * - A fraction may follow the mark of its whole inches: `12"3/8` is 12 3/8 in.
 * - A tolerance without a unit takes the unit written last; a value without one takes the declared unit.
 * - `3 7/16 in +` is how an inexact value is shown (see formatLength.ts). It is read as the fraction with a tolerance
 *   of ±1/32 in, half the coarsest step that is shown.
 */
import { type LengthUnit, UNIT_LIST, unitNamed, unitRatio } from './lengthUnits.ts';

export interface ParsedLength {
  mm: number;
  /** Half the width of the tolerance, as typed after ±, mm; undefined if none was typed. */
  plusMinusMm: number | undefined;
}

/** The text is not a length. The message is one sentence: what was found and what is allowed. */
export class LengthError extends Error {
  constructor(typed: string, message: string) {
    const shown = typed.length > 40 ? `${typed.slice(0, 37)}...` : typed;
    super(`"${shown}" is not a length: ${message}`);
    this.name = 'LengthError';
  }
}

/** A rational number; neither part is negative. */
type Ratio = readonly [numerator: bigint, denominator: bigint];

interface Quantity {
  /** Millimetres. */
  mm: Ratio;
  /** The unit written last; undefined if none was written. */
  written: LengthUnit | undefined;
  marked: boolean;
}

const MAX_LENGTH = 80;
/** Enough digits to distinguish any two doubles. */
const MAX_DIGITS = 17;
const PLUS_MINUS = /\s*(?:±|\+\/-|\+-)\s*/;
/** Feet followed by inches: the foot mark, an optional hyphen, then a digit. */
const FEET_THEN = /^(ft\.?|foot|feet|'|′|’)\s*-?\s*(?=[\d.,])/i;
/** Whole inches followed by their fraction: the inch mark, then only a fraction and its unit. */
const INCHES_THEN =
  /^(?:in\.?|inch|inches|"|″|”|'')(?: |-)?(\d+ ?\/ ?\d+)(?: ?(?:in\.?|inch|inches|"|″|”|''))?$/i;
const VULGAR: Readonly<Record<string, string>> = {
  '¼': '1/4',
  '½': '1/2',
  '¾': '3/4',
  '⅓': '1/3',
  '⅔': '2/3',
  '⅕': '1/5',
  '⅖': '2/5',
  '⅗': '3/5',
  '⅘': '4/5',
  '⅙': '1/6',
  '⅚': '5/6',
  '⅛': '1/8',
  '⅜': '3/8',
  '⅝': '5/8',
  '⅞': '7/8',
};
/** Half the coarsest fraction step that is shown, in mm: the tolerance of a trailing + or −. */
const MARK_MM: Ratio = [127n, 160n];

/**
 * Reads a length as typed. `unit`: the file's declared unit, used if the text has none. Exact: the value is the
 * double nearest to the typed rational number. Throws a LengthError.
 */
export function parseLength(typed: string, options: { unit?: LengthUnit } = {}): ParsedLength {
  const fail = (message: string): never => {
    throw new LengthError(typed, message);
  };
  if (typed.length > MAX_LENGTH) fail(`it is longer than ${MAX_LENGTH} characters`);
  const text = plain(typed);
  if (text === '') fail('it is empty; write a number and a unit, such as "5 1/2 in" or "139.7 mm"');
  const [valueText, toleranceText, ...more] = text.split(PLUS_MINUS);
  if (more.length > 0) fail('it has more than one ±');

  const sign = /^[+-] ?/.exec(valueText)?.[0] ?? '';
  const value = readQuantity(valueText.slice(sign.length), options.unit, fail);
  const mm = toNumber(value.mm);
  const result: ParsedLength = { mm: sign.startsWith('-') && mm !== 0 ? -mm : mm, plusMinusMm: undefined };
  if (toleranceText !== undefined) {
    if (/^[+-]/.test(toleranceText)) fail('the tolerance after ± has a sign; write it without one');
    const tolerance = readQuantity(toleranceText, value.written ?? options.unit, fail);
    if (
      value.written === undefined &&
      tolerance.written !== undefined &&
      tolerance.written !== options.unit
    ) {
      fail('the tolerance names a unit and the value does not; write the unit of both');
    }
    if (tolerance.marked) fail('a tolerance cannot end in + or −');
    result.plusMinusMm = toNumber(tolerance.mm);
  } else if (value.marked) {
    result.plusMinusMm = toNumber(MARK_MM);
  }
  return result;
}

/** One form for each mark: ASCII hyphen as minus, plain spaces, fractions spelled out. */
const plain = (typed: string): string =>
  typed
    .replace(/[\u2010-\u2013\u2212]/g, '-')
    .replace(/\u2044/g, '/')
    .replace(/(?<=\d)(?=[¼½¾⅓⅔⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞])/g, ' ')
    .replace(/[¼½¾⅓⅔⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞]/g, (mark) => VULGAR[mark])
    .replace(/\s+/g, ' ')
    .trim();

type Fail = (message: string) => never;

/** Reads an unsigned number with its unit, or feet and inches. */
function readQuantity(text: string, unit: LengthUnit | undefined, fail: Fail): Quantity {
  const numberText = /^[\d.,/ -]*/.exec(text)?.[0] ?? '';
  const rest = text.slice(numberText.length);
  const number = readNumber(numberText.trim(), text, fail);
  const feet = FEET_THEN.exec(rest);
  if (feet !== null) {
    if (number[1] !== 1n) fail('feet before inches must be a whole number');
    const inches = readQuantity(rest.slice(feet[0].length), 'in', fail);
    if (inches.written !== 'in') fail('feet must be followed by inches, such as 5\' 2 1/2"');
    const [n, d] = inches.mm;
    const [footN, footD] = bigRatio('ft');
    if (n * footD >= footN * d) fail('inches after feet must be less than 12');
    return { ...inches, mm: [number[0] * footN * d + n * footD, d * footD] };
  }
  const fraction = INCHES_THEN.exec(rest)?.[1];
  if (fraction !== undefined) {
    if (number[1] !== 1n) fail('inches before a fraction must be a whole number');
    const [n, d] = readNumber(fraction, fraction, fail);
    const [inchN, inchD] = bigRatio('in');
    return { mm: [(number[0] * d + n) * inchN, d * inchD], written: 'in', marked: false };
  }
  const mark = /\s*[+-]$/.exec(rest)?.[0];
  const name = rest.slice(0, rest.length - (mark?.length ?? 0));
  const written = name === '' ? undefined : unitNamed(name);
  if (name !== '' && written === undefined) fail(`"${name}" is not a unit; write ${UNIT_LIST}`);
  if (mark !== undefined && written !== 'in') fail(`a trailing ${mark.trim()} is allowed only after inches`);
  const inUse = written ?? unit;
  if (inUse === undefined) {
    return fail(`it has no unit; write ${UNIT_LIST}, or declare the file's unit`);
  }
  const [n, d] = bigRatio(inUse);
  return { mm: [number[0] * n, number[1] * d], written, marked: mark !== undefined };
}

/** Reads `12`, `1.25`, `1,25`, `.5`, `7/16`, `3 7/16` and `3-7/16`. */
function readNumber(text: string, whole: string, fail: Fail): Ratio {
  const decimal = /^(\d*)(?:[.,](\d+))?$/.exec(text);
  if (text === '') {
    const problem = whole === '' ? 'it has no number' : 'it does not begin with a number';
    return fail(`${problem}; write one such as 139.7 or 3 7/16`);
  }
  if (decimal !== null) {
    if (/^[1-9]\d{0,2},\d{3}$/.test(text)) {
      fail(`${text} is ambiguous; write ${text.replace(',', '')} or ${text.replace(',', '.')}`);
    }
    const fraction = decimal[2] ?? '';
    return [wholeNumber(decimal[1] + fraction, fail), 10n ** BigInt(fraction.length)];
  }
  const mixed = /^(?:(\d+)[ -])?(\d+) ?\/ ?(\d+)$/.exec(text);
  if (mixed === null) return fail(`${text} is not a number such as 139.7, 7/16 or 3 7/16`);
  const [wholes, n, d] = [mixed[1] ?? '0', mixed[2], mixed[3]].map((digits) => wholeNumber(digits, fail));
  if (d === 0n) fail(`the fraction ${mixed[2]}/${mixed[3]} has the denominator 0`);
  if (n >= d) fail(`the fraction ${n}/${d} is not less than one; write it as a whole number and a fraction`);
  return [wholes * d + n, d];
}

/** A whole number. Fails if it has more digits than a double can hold. */
function wholeNumber(digits: string, fail: Fail): bigint {
  if (digits.replace(/^0+/, '').length > MAX_DIGITS)
    fail(`it has more than ${MAX_DIGITS} digits in one number; write fewer`);
  return BigInt(digits);
}

/** Millimetres in one unit. */
function bigRatio(unit: LengthUnit): Ratio {
  const [n, d] = unitRatio(unit);
  return [BigInt(n), BigInt(d)];
}

/** Bits of a quotient beyond the 53 of a double, so that rounding them once gives the rounded true quotient. */
const SPARE_BITS = 64;

/** The double nearest to a rational number. */
function toNumber([n, d]: Ratio): number {
  const shift = Math.max(0, SPARE_BITS + 53 - (n.toString(2).length - d.toString(2).length));
  const scaled = n << BigInt(shift);
  const quotient = scaled / d;
  // A remainder counts as less than the last bit, so that rounding sees a tie only where there is one.
  const sticky = quotient * d === scaled ? quotient : quotient | 1n;
  return Number(sticky) / 2 ** shift;
}
