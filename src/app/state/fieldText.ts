import { textFromValue } from '../../design/edit.ts';
import type { Field, ValueField } from '../../design/fields.ts';
import { type Path, valueAt } from '../../design/path.ts';
import type { LengthUnit } from '../../report/figures.ts';
import { inWords } from '../../units/plainText.ts';
import { capital, trimmed } from '../kit/words.ts';
import { entriesOf, idOf, nameOf } from './partEntries.ts';

/** Decimals of an assumed value in each unit. */
const DECIMALS: Record<LengthUnit, number> = { mm: 3, in: 4 };

/** Value of a field in the file as text. A plain number gets its unit: mm for a length, ° for an angle. */
export function shownText({ kind, typed }: Pick<ValueField, 'kind' | 'typed'>): string {
  if (typeof typed !== 'number') return textFromValue(typed);
  const number = String(typed).replace('-', '−');
  return kind === 'length' ? `${number} mm` : kind === 'angle' ? `${number}°` : number;
}

/** Assumed value of a field that the file leaves out, in `unit`; empty if nothing is assumed. */
export function assumedText(
  { kind, fallback }: Pick<ValueField, 'kind' | 'fallback'>,
  unit: LengthUnit,
): string {
  if (fallback === undefined) return '';
  if (kind === 'length' && typeof fallback === 'number')
    return `${trimmed(fallback, unit, DECIMALS[unit])} ${unit}`;
  return kind === 'choice' ? inWords(String(fallback)) : shownText({ kind, typed: fallback });
}

/** File value for a confirmed assumed value: in inches if `unit` is inches and the value is exact in inches, else in mm. */
export function confirmedValue(
  { kind, fallback }: Pick<ValueField, 'kind' | 'fallback'>,
  unit: LengthUnit,
): unknown {
  if (kind !== 'length' || typeof fallback !== 'number') return fallback;
  const inches = trimmed(fallback, 'in', DECIMALS.in);
  const exact = Math.abs(Number(inches.replace('−', '-')) * 25.4 - fallback) < 1e-9;
  return unit === 'in' && exact ? `${inches} in` : `${trimmed(fallback, 'mm', DECIMALS.mm)} mm`;
}

/** Whether a field is an optional group or list that the file leaves out and that has no default. */
export const isAbsent = (field: Field): boolean =>
  (field.kind === 'group' || field.kind === 'list') &&
  field.optional &&
  field.typed === undefined &&
  (field.kind === 'group' || !field.items.some((item) => 'fallback' in item && item.fallback !== undefined));

/** Meaning of an absent field, if it is not "none". */
const ABSENT_MEANING: Readonly<Record<string, string>> = {
  boltHead: 'the usual size for the bolt, if there is room',
  housingDirection: 'along the bolt',
};

/** Meaning of an absent group or list: "none", "along the bolt". */
export const absentText = (key: string | number): string => ABSENT_MEANING[key] ?? 'none';

/** Fields whose value is not given: a default or a starting value. A point or a direction counts as one field. */
export const assumedIn = (
  fields: readonly Field[],
  isGuess: (field: Field) => boolean = () => false,
): Field[] =>
  fields.flatMap((field) => {
    if (isAbsent(field)) return [];
    if (field.kind === 'group') return assumedIn(field.fields, isGuess);
    if (field.kind === 'list')
      return isGuess(field) || (field.typed === undefined && field.items.length > 0) ? [field] : [];
    const assumed = field.typed === undefined && field.fallback !== undefined;
    return assumed || isGuess(field) ? [field] : [];
  });

/** Name of a field on screen: `outboardDepth` gives "Outboard depth"; an index counts from 1. */
export function fieldName(key: string | number): string {
  if (typeof key === 'number') return String(key + 1);
  return capital(inWords(key));
}

/** An unquoted field name of the file in a message: `boltCircle`, `hatBolts.circle`. */
const FIELD_IN_FILE =
  /(?<!["\w.])(?:[a-z]+[A-Z][a-zA-Z]*(?:\.[a-z][a-zA-Z]*)*|[a-z]+(?:\.[a-z][a-zA-Z]*)+)(?!["\w])/g;

/** Message of a problem with the on-screen names of fields and parts instead of their names in the file. */
export function problemInWords(message: string, source: unknown): string {
  const named = new Map(entriesOf(source).map((entry) => [idOf(entry), nameOf(entry)]));
  return message
    .replace(/"([\w-]+)"/g, (quoted, id: string) => (named.has(id) ? `"${named.get(id)}"` : quoted))
    .replace(FIELD_IN_FILE, (field) => field.split('.').map(inWords).join(', '));
}

/** Message about a field as a sentence: messages that start in lower case lack the field's name. */
export const problemSentence = (name: string, message: string): string =>
  /^[a-z]/.test(message) ? `${name} ${message}` : message;

/** Sentence about lengths typed without a unit. */
export const unitInWords = (unit: LengthUnit | undefined): string =>
  unit === undefined
    ? 'Write the unit with each length.'
    : `A length without a unit is in ${unit === 'mm' ? 'mm' : 'inches'}.`;

/** Names of the coordinates of a point or direction. */
export const AXIS_NAMES = ['X', 'Y', 'Z'] as const;

/** Name of a value at a path of the file, with its part: "Front wheel, backspacing", "Points, wheel centre, Y". */
export function valueName(source: unknown, path: Path): string {
  const isPart = path[0] === 'parts';
  const owner = isPart ? nameOf(entriesOf(source)[Number(path[1])]) : 'Points';
  const steps = path.slice(isPart ? 2 : 1).filter((step) => step !== 'hardpoints');
  const names = steps.map((step, k) => {
    if (typeof step !== 'number') return inWords(step);
    const list = valueAt(source, path.slice(0, path.length - steps.length + k));
    const isPoint = Array.isArray(list) && list.length === 3 && k === steps.length - 1;
    return isPoint ? AXIS_NAMES[step] : `${step + 1}`;
  });
  return [owner, ...names].join(', ');
}
