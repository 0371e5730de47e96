import type { Field, ValueField } from './fields.ts';
import { type Path, pathText, valueAt } from './path.ts';
import type { PartKind } from './schema.ts';

type Json = Record<string | number, unknown>;

/**
 * The file with another value at a path; without the field where the value is undefined. Objects on the way are made where
 * they are missing; nothing of the old file is changed. Throws a RangeError for a step through what holds no fields.
 */
export function withValue(source: unknown, path: Path, value: unknown): unknown {
  if (path.length === 0) return value;
  const [step, ...rest] = path;
  if (source !== undefined && (typeof source !== 'object' || source === null))
    throw new RangeError(
      `there are no fields in ${JSON.stringify(source)}: "${pathText(path)}" is not there`,
    );
  const copy = (Array.isArray(source) ? [...source] : { ...(source as Json) }) as Json;
  const held = withValue(copy[step], rest, value);
  if (held !== undefined) copy[step] = held;
  else if (Array.isArray(copy)) copy.splice(step as number, 1);
  else delete copy[step];
  return copy;
}

/**
 * What a file is to hold for a text that a person typed into a field: a length as typed, a plain number where one is
 * meant, nothing for an empty text. What is no number is kept as typed, so that nothing is lost and the reader of the
 * file says what is wrong with it.
 */
export function valueFromText({ kind }: Pick<ValueField, 'kind'>, text: string): unknown {
  const typed = text.trim();
  if (typed === '') return undefined;
  if (kind === 'length' || kind === 'text' || kind === 'choice') return typed;
  if (kind === 'yesNo') return typed === 'yes' || typed === 'true' ? true : typed === 'no' ? false : typed;
  const number = Number(typed.replace(/°$/, '').replace('−', '-').trim());
  return Number.isFinite(number) ? number : typed;
}

/** The text of what a file holds in a field, as a person types it; empty for nothing. */
export function textFromValue(typed: unknown): string {
  if (typed === undefined) return '';
  if (typeof typed === 'boolean') return typed ? 'yes' : 'no';
  return typeof typed === 'string' ? typed : JSON.stringify(typed);
}

const partsOf = (source: unknown): readonly Json[] => {
  const parts = valueAt(source, ['parts']);
  return Array.isArray(parts) ? (parts as Json[]) : [];
};

/** `rotor`, or with the least number after it that no part has yet: `rotor2`. */
export function freeId(source: unknown, wanted: string): string {
  const taken = new Set(partsOf(source).map(({ id }) => id));
  if (!taken.has(wanted)) return wanted;
  const stem = wanted.replace(/\d+$/, '');
  for (let n = 2; ; n++) if (!taken.has(`${stem}${n}`)) return `${stem}${n}`;
}

/** The file with one more part at the end. */
export const withPart = (source: unknown, entry: { id: string; kind: PartKind } & Json): unknown =>
  withValue(source, ['parts'], [...partsOf(source), entry]);

/** The file with a copy of a part after it, of an id of its own. */
export function withCopy(source: unknown, part: number): unknown {
  const parts = partsOf(source);
  const entry = parts[part];
  const copy: Json = { ...entry, id: freeId(source, String(entry.id)) };
  if (typeof entry.label === 'string') copy.label = `${entry.label}, copy`;
  return withValue(source, ['parts'], [...parts.slice(0, part + 1), copy, ...parts.slice(part + 1)]);
}

/** The file without a part, and without the pair rules that name it. */
export function withoutPart(source: unknown, part: number): unknown {
  const { id } = partsOf(source)[part];
  const left = withValue(
    source,
    ['parts'],
    partsOf(source).filter((_, p) => p !== part),
  );
  return withPairs(left, (pairs) => pairs.filter((pair) => !namesOf(pair).includes(id)));
}

/** The file with a part of another id, in the pair rules that name it too. */
export function withId(source: unknown, part: number, id: string): unknown {
  const old = partsOf(source)[part].id;
  const renamed = withValue(source, ['parts', part, 'id'], id);
  return withPairs(renamed, (pairs) =>
    pairs.map((pair) =>
      namesOf(pair).includes(old)
        ? { ...pair, between: namesOf(pair).map((name) => (name === old ? id : name)) }
        : pair,
    ),
  );
}

const namesOf = ({ between }: Json): unknown[] => (Array.isArray(between) ? between : []);

function withPairs(source: unknown, change: (pairs: readonly Json[]) => Json[]): unknown {
  const pairs = valueAt(source, ['pairs']);
  if (!Array.isArray(pairs)) return source;
  const changed = change(pairs as Json[]);
  return withValue(source, ['pairs'], changed.length === 0 ? undefined : changed);
}

/** Every value among fields, those in groups and lists too. */
export const valuesIn = (fields: readonly Field[]): ValueField[] =>
  fields.flatMap((field) =>
    field.kind === 'group' ? valuesIn(field.fields) : field.kind === 'list' ? valuesIn(field.items) : [field],
  );
