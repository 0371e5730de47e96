import { textFromValue } from '../../design/edit.ts';
import type { Field, ValueField } from '../../design/fields.ts';
import type { LengthUnit } from '../../report/figures.ts';
import { inWords } from '../panels/inputText.ts';
import { capital, trimmed } from '../words.ts';
import { entriesOf, idOf, nameOf } from './partOf.ts';

/** Decimals to which a default is told in each unit. */
const DECIMALS: Record<LengthUnit, number> = { mm: 3, in: 4 };

/** What a file holds in a field, as a person types it: a plain number of a length with its mm, an angle with its degrees. */
export function shownText({ kind, typed }: Pick<ValueField, 'kind' | 'typed'>): string {
  if (typeof typed !== 'number') return textFromValue(typed);
  const number = String(typed).replace('-', '−');
  return kind === 'length' ? `${number} mm` : kind === 'angle' ? `${number}°` : number;
}

/** The value that is assumed while the file holds none, in the unit chosen; empty where nothing is assumed. */
export function assumedText(
  { kind, fallback }: Pick<ValueField, 'kind' | 'fallback'>,
  unit: LengthUnit,
): string {
  if (fallback === undefined) return '';
  if (kind === 'length' && typeof fallback === 'number')
    return `${trimmed(fallback, unit, DECIMALS[unit])} ${unit}`;
  return kind === 'choice' ? inWords(String(fallback)) : shownText({ kind, typed: fallback });
}

/** What a file holds once the assumed value of a field is confirmed: in the unit chosen where that says it exactly. */
export function confirmedValue(
  { kind, fallback }: Pick<ValueField, 'kind' | 'fallback'>,
  unit: LengthUnit,
): unknown {
  if (kind !== 'length' || typeof fallback !== 'number') return fallback;
  const inches = trimmed(fallback, 'in', DECIMALS.in);
  const exact = Math.abs(Number(inches.replace('−', '-')) * 25.4 - fallback) < 1e-9;
  return unit === 'in' && exact ? `${inches} in` : `${trimmed(fallback, 'mm', DECIMALS.mm)} mm`;
}

/** Whether a group or a list is one that the part may lack and the file does not hold, with no default in its place. */
export const isAbsent = (field: Field): boolean =>
  (field.kind === 'group' || field.kind === 'list') &&
  field.optional &&
  field.typed === undefined &&
  (field.kind === 'group' || !field.items.some((item) => 'fallback' in item && item.fallback !== undefined));

/** What an absent field means where that is not "none". */
const WHERE_ABSENT: Readonly<Record<string, string>> = {
  boltHead: 'the usual size for the bolt, where there is room',
  housingDirection: 'along the bolt',
};

/** What holds while a group or a list is absent: "none", "along the bolt". */
export const absentText = (key: string | number): string => WHERE_ABSENT[key] ?? 'none';

/** Fields whose value nobody has given, a default or a guess to start from; a point or a direction is one. */
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

/** What a field is called under its object: `outboardDepth` is "Outboard depth". */
export function fieldName(key: string | number): string {
  if (typeof key === 'number') return String(key + 1);
  return capital(inWords(key));
}

/** A field as a file names it, unquoted: `boltCircle`, `hatBolts.circle`. */
const FIELD_IN_FILE =
  /(?<!["\w.])(?:[a-z]+[A-Z][a-zA-Z]*(?:\.[a-z][a-zA-Z]*)*|[a-z]+(?:\.[a-z][a-zA-Z]*)+)(?!["\w])/g;

/** A problem as the bench shows it: fields and parts by their names on the bench, not by those in the file. */
export function problemInWords(message: string, source: unknown): string {
  const named = new Map(entriesOf(source).map((entry) => [idOf(entry), nameOf(entry)]));
  return message
    .replace(/"([\w-]+)"/g, (quoted, id: string) => (named.has(id) ? `"${named.get(id)}"` : quoted))
    .replace(FIELD_IN_FILE, (field) => field.split('.').map(inWords).join(', '));
}

/** A sentence about a field: problems speak without naming it. */
export const problemSentence = (name: string, message: string): string =>
  /^[a-z]/.test(message) ? `${name} ${message}` : message;

/** What a length is that is typed without its unit. */
export const unitInWords = (unit: LengthUnit | undefined): string =>
  unit === undefined
    ? 'Write the unit with each length.'
    : `A length without a unit is in ${unit === 'mm' ? 'mm' : 'inches'}.`;
