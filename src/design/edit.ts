import type { Field, ValueField } from './fields.ts';
import { type Path, pathText, valueAt } from './path.ts';
import type { PartKind } from './schema.ts';

type Json = Record<string | number, unknown>;

/**
 * A copy of the file with a value at a path; an undefined value removes the field. Missing objects on the way are created.
 * Throws a RangeError if a value on the way has no fields.
 */
export function withValue(source: unknown, path: Path, value: unknown): unknown {
  if (path.length === 0) return value;
  const [step, ...rest] = path;
  if (source !== undefined && (typeof source !== 'object' || source === null))
    throw new RangeError(`cannot set "${pathText(path)}" in ${JSON.stringify(source)}: it has no fields`);
  const copy = (Array.isArray(source) ? [...source] : { ...(source as Json) }) as Json;
  const held = withValue(copy[step], rest, value);
  if (held !== undefined) copy[step] = held;
  else if (Array.isArray(copy)) copy.splice(step as number, 1);
  else delete copy[step];
  return copy;
}

/**
 * The value to store in the file for a text typed into a field: a length as typed, a plain number for a field of numbers,
 * undefined for an empty text. A text that is no number is kept as typed; reading the file then reports what is wrong.
 */
export function valueFromText({ kind }: Pick<ValueField, 'kind'>, text: string): unknown {
  const typed = text.trim();
  if (typed === '') return undefined;
  if (kind === 'length' || kind === 'text' || kind === 'choice') return typed;
  if (kind === 'yesNo') return typed === 'yes' || typed === 'true' ? true : typed === 'no' ? false : typed;
  const number = Number(typed.replace(/°$/, '').replace('−', '-').trim());
  return Number.isFinite(number) ? number : typed;
}

/** The text of a stored value, as typed into a field; empty for undefined. */
export function textFromValue(typed: unknown): string {
  if (typed === undefined) return '';
  if (typeof typed === 'boolean') return typed ? 'yes' : 'no';
  return typeof typed === 'string' ? typed : JSON.stringify(typed);
}

const partsOf = (source: unknown): readonly Json[] => {
  const parts = valueAt(source, ['parts']);
  return Array.isArray(parts) ? (parts as Json[]) : [];
};

/** The id itself if it is free; else with the smallest free number after it: `rotor2`. */
export function freeId(source: unknown, preferred: string): string {
  const taken = new Set(partsOf(source).map(({ id }) => id));
  if (!taken.has(preferred)) return preferred;
  const stem = preferred.replace(/\d+$/, '');
  for (let n = 2; ; n++) if (!taken.has(`${stem}${n}`)) return `${stem}${n}`;
}

/** The file with a part added at the end. */
export const withPart = (source: unknown, entry: { id: string; kind: PartKind } & Json): unknown =>
  withValue(source, ['parts'], [...partsOf(source), entry]);

/** The file with a copy of a part after it, under a free id. */
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

/** The file with another id for a part, also in the pair rules that name it. */
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

/** All values among fields, including those in groups and lists. */
export const valuesIn = (fields: readonly Field[]): ValueField[] =>
  fields.flatMap((field) =>
    field.kind === 'group' ? valuesIn(field.fields) : field.kind === 'list' ? valuesIn(field.items) : [field],
  );
