import { z } from 'zod';
import { MARKS } from './marks.ts';
import { type Path, valueAt } from './path.ts';
import { cornerSchema, type Entry, type PartKind } from './schema.ts';
import { bare, childSchema, descriptionOf, measureOf, optionFor, schemaAt } from './schemaWalk.ts';

/** Kind of a single value of a file, as an editor shows it. Angles are in degrees; a `count` is a whole number. */
export type FieldKind = 'length' | 'angle' | 'number' | 'count' | 'choice' | 'yesNo' | 'text';

interface Place {
  path: Path;
  /** Last step of the path: the field's name in the file. */
  key: string | number;
  /** The line of help beside the field. */
  description: string | undefined;
  /** Whether the file is valid without it. */
  optional: boolean;
  /** The value in the file, as typed; undefined if the file leaves it out. */
  typed: unknown;
}

export interface ValueField extends Place {
  kind: FieldKind;
  /** Value used if the file has none: mm for a length; undefined if there is no default. */
  fallback: unknown;
  /** Allowed values of a choice; empty for other kinds. */
  choices: readonly string[];
}

/** An object of the file. */
export interface GroupField extends Place {
  kind: 'group';
  fields: readonly Field[];
}

/** A list in the file: a point, a direction, the corners of an outline. */
export interface ListField extends Place {
  kind: 'list';
  /** Fixed number of items; undefined if the list may grow. */
  length: number | undefined;
  /** Least number of items. */
  least: number;
  items: readonly Field[];
}

export type Field = ValueField | GroupField | ListField;

let shape: ReturnType<typeof cornerSchema> | undefined;

/** The schema, for names and descriptions; it reads no lengths. */
function schemaOfCorner(): ReturnType<typeof cornerSchema> {
  shape ??= cornerSchema(() => Number.NaN);
  return shape;
}

/** Builds the schema in advance, so that the first call of `fieldsAt` need not wait. */
export const prepareFields = (): void => void schemaOfCorner();

/**
 * The fields of the object at `path` of a file, in the schema's order, including those that the file leaves out; none if
 * the schema has no object there (a part of unknown kind). `assumed` and `fixed` are left out: they concern the other fields.
 */
export function fieldsAt(source: unknown, path: Path): Field[] {
  const schema = schemaAt(schemaOfCorner(), source, path);
  return schema === undefined ? [] : fieldsIn(schema, source, path);
}

/**
 * Default of a number of a part, mm for a length. Throws a RangeError if the kind has no such field, or the field no such
 * default.
 */
export function defaultNumber<K extends PartKind>(kind: K, name: keyof Entry<K> & string): number {
  const field = fieldsAt({ parts: [{ kind }] }, ['parts', 0]).find(({ key }) => key === name);
  if (field === undefined || !('fallback' in field) || typeof field.fallback !== 'number')
    throw new RangeError(`no default is known for "${name}" of a ${kind}`);
  return field.fallback;
}

function fieldsIn(schema: z.core.$ZodType, source: unknown, path: Path): Field[] {
  const object = optionFor(schema, valueAt(source, path));
  if (!(object instanceof z.ZodObject)) return [];
  return Object.entries(object.shape as Record<string, z.core.$ZodType>)
    .filter(([key]) => !MARKS.has(key))
    .map(([key, child]) => fieldOf(child, source, [...path, key]));
}

function fieldOf(schema: z.core.$ZodType, source: unknown, path: Path): Field {
  const typed = valueAt(source, path);
  const place = {
    path,
    key: path[path.length - 1],
    description: descriptionOf(schema),
    optional: schema instanceof z.ZodOptional || schema instanceof z.ZodDefault,
    typed,
  };
  const fallback = schema instanceof z.ZodDefault ? schema.def.defaultValue : undefined;
  const inner = bare(schema);
  const isLength = measureOf(schema) === 'length';
  if (!isLength && (inner instanceof z.ZodObject || inner instanceof z.ZodDiscriminatedUnion))
    return { ...place, kind: 'group', fields: fieldsIn(schema, source, path) };
  if (inner instanceof z.ZodTuple || inner instanceof z.ZodArray) {
    const length = inner instanceof z.ZodTuple ? inner.def.items.length : undefined;
    const held = Array.isArray(typed) ? typed : Array.isArray(fallback) ? fallback : [];
    const items = Array.from({ length: length ?? held.length }, (_, i) => {
      const item = childSchema(schema, held, i) as z.core.$ZodType;
      const field = fieldOf(item, source, [...path, i]);
      return typed === undefined && 'fallback' in field ? { ...field, fallback: held[i] } : field;
    });
    return { ...place, kind: 'list', length, least: length ?? leastOf(inner), items };
  }
  return {
    ...place,
    kind: fieldKindOf(schema, inner),
    fallback,
    choices: inner instanceof z.ZodEnum ? inner.options.map(String) : literalsOf(inner),
  };
}

function fieldKindOf(schema: z.core.$ZodType, inner: z.core.$ZodType): FieldKind {
  const measure = measureOf(schema);
  if (measure !== undefined) return measure;
  if (inner instanceof z.ZodEnum || inner instanceof z.ZodLiteral) return 'choice';
  if (inner instanceof z.ZodBoolean) return 'yesNo';
  if (inner instanceof z.ZodNumber) return inner.format === 'safeint' ? 'count' : 'number';
  return 'text';
}

const literalsOf = (inner: z.core.$ZodType): string[] =>
  inner instanceof z.ZodLiteral ? [...inner.values].map(String) : [];

function leastOf(array: z.core.$ZodType): number {
  const checks = array instanceof z.ZodArray ? (array.def.checks ?? []) : [];
  return checks.reduce((least, { _zod }) => {
    const def = _zod.def as { check: string; minimum?: number };
    return def.check === 'min_length' ? Math.max(least, def.minimum ?? 0) : least;
  }, 0);
}
