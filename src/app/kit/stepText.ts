import type { FieldKind } from '../../design/fields.ts';
import { formatInches } from '../../units/formatLength.ts';
import { type LengthUnit, unitNamed, unitRatio } from '../../units/lengthUnits.ts';
import { parseLength } from '../../units/parseLength.ts';

/** One step of a length, mm: the finest graduation of a tape measure; for thou, that of a micrometer. */
const STEP_MM = { inch: 25.4 / 16, metric: 0.5, thou: 0.0254 };
/** Decimals that one step needs in each unit. */
const STEP_DECIMALS: Record<LengthUnit, number> = { mm: 1, cm: 2, m: 4, in: 4, ft: 6, thou: 0 };
/** The inch mark of a text whose fraction follows it: `12"3/8`. */
const INCHES_THEN = /^\s*(?:in\.?|inch|inches|"|″|”|'')[ -]?\d/i;
const VALUE_AND_TOLERANCE = /^(.*?)(\s*(?:±|\+\/-|\+-).*)?$/s;
/** Sign and number, fractions and their one-character forms included, before the unit. */
const NUMBER = /^[\s+\-‐-–−]*[\d.,/\s\-‐-–⁄¼½¾⅓⅔⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞]*/u;

/**
 * Text of a field after a number of steps. A step is 1/16 in, 0.5 mm or 1 thou for a length, depending on the typed unit,
 * and 1 for an angle in degrees or a count. Unit, ± and notation stay. Undefined if the text cannot be read, or for a kind
 * without steps. `unit`: unit of a length typed without one.
 */
export function stepText(
  kind: FieldKind,
  text: string,
  steps: number,
  unit: LengthUnit | undefined,
): string | undefined {
  if (kind === 'length') return steppedLength(text, steps, unit);
  if (kind !== 'angle' && kind !== 'count') return undefined;
  const [, value, tolerance = ''] = VALUE_AND_TOLERANCE.exec(text.trim()) as RegExpExecArray;
  const number = Number(value.replace('°', '').replace('−', '-').trim() || Number.NaN);
  if (!Number.isFinite(number)) return undefined;
  return withMinus(`${Number((number + steps).toFixed(9))}${kind === 'angle' ? '°' : ''}${tolerance}`);
}

function steppedLength(text: string, steps: number, fileUnit: LengthUnit | undefined): string | undefined {
  const [, value, tolerance = ''] = VALUE_AND_TOLERANCE.exec(text.trim()) as RegExpExecArray;
  const number = NUMBER.exec(value)?.[0] ?? '';
  const suffix = value.slice(number.length);
  const inchesFirst = INCHES_THEN.test(suffix);
  const feetAndInches = /\d/.test(suffix) && !inchesFirst;
  const unit =
    feetAndInches || inchesFirst ? 'in' : (unitNamed(suffix.replace(/\s*[+\-−]$/, '')) ?? fileUnit);
  if (unit === undefined) return undefined;
  let mm: number;
  try {
    mm = parseLength(text, { unit: fileUnit }).mm;
  } catch {
    return undefined;
  }
  const next = mm + steps * stepMm(unit);
  if (inchesFirst) return `${numberLike('', next, 'in')}"${tolerance}`;
  if (feetAndInches) return `${feetAndInchesOf(next)}${tolerance}`;
  const gap = /\s*$/.exec(number)?.[0] ?? '';
  return `${numberLike(number, next, unit)}${gap}${suffix}${tolerance}`;
}

function stepMm(unit: LengthUnit): number {
  if (unit === 'thou') return STEP_MM.thou;
  return unit === 'in' || unit === 'ft' ? STEP_MM.inch : STEP_MM.metric;
}

/** A length in mm as a number in `unit`, in the notation of `like`: for inches a fraction unless `like` has decimals. */
function numberLike(like: string, mm: number, unit: LengthUnit): string {
  if (unit === 'in' && !/[.,]/.test(like)) {
    const fraction = inchFraction(mm);
    if (fraction !== undefined) return fraction;
  }
  const [n, d] = unitRatio(unit);
  const typed = /[.,](\d*)/.exec(like)?.[1].length ?? 0;
  const digits = ((mm * d) / n).toFixed(Math.max(typed, STEP_DECIMALS[unit]));
  const plain = withMinus(String(Number(digits)));
  return like.includes(',') ? plain.replace('.', ',') : plain;
}

/** A length in mm as inches: `5 9/16`; undefined if it is not a multiple of 1/64 in. */
function inchFraction(mm: number): string | undefined {
  const text = formatInches(mm, 64);
  return text.endsWith(' in') ? text.slice(0, -' in'.length) : undefined;
}

function feetAndInchesOf(mm: number): string {
  const [n, d] = unitRatio('ft');
  const sign = mm < 0 ? '−' : '';
  const feet = Math.floor((Math.abs(mm) * d) / n + 1e-9);
  const inches = numberLike('', Math.max(0, Math.abs(mm) - (feet * n) / d), 'in');
  return `${sign}${feet}' ${inches}"`;
}

const withMinus = (text: string): string => text.replace(/^-/, '−').replace(/^−0(?![.\d])/, '0');
