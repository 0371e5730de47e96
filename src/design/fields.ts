import { z } from 'zod';
import { type Path, valueAt } from './path.ts';
import { cornerSchema, type PartKind } from './schema.ts';
import { bare, childSchema, measureOf, optionFor, schemaAt } from './schemaWalk.ts';

/** What a single value of a file is, for whoever edits it. Angles are degrees, a `count` is a whole number. */
export type FieldKind = 'length' | 'angle' | 'number' | 'count' | 'choice' | 'yesNo' | 'text';

interface Place {
  path: Path;
  /** Last step of the path: the name in the file. */
  key: string | number;
  description: string | undefined;
  /** Whether the file is sound without it. */
  optional: boolean;
  /** What the file holds there; undefined where it holds nothing. */
  typed: unknown;
}

export interface ValueField extends Place {
  kind: FieldKind;
  /** Value in use while the file holds none: mm for a length; undefined where there is no default. */
  fallback: unknown;
  /** Of a choice. */
  choices: readonly string[];
}

/** Values that belong together: an object of the file. */
export interface GroupField extends Place {
  kind: 'group';
  fields: readonly Field[];
}

/** A list of the file: a point, a direction, the corners of an outline. */
export interface ListField extends Place {
  kind: 'list';
  /** A list of so many; undefined where it may grow. */
  length: number | undefined;
  /** What it must hold at least. */
  least: number;
  items: readonly Field[];
}

export type Field = ValueField | GroupField | ListField;

let shape: ReturnType<typeof cornerSchema> | undefined;

/** Lengths are not read here: the schema stands for its names and descriptions alone. */
function schemaOfCorner(): ReturnType<typeof cornerSchema> {
  shape ??= cornerSchema(() => Number.NaN);
  return shape;
}

/** Makes the schema that fields are read from, which the first to ask would wait for. */
export const readyFields = (): void => void schemaOfCorner();

/**
 * The fields of the object at `path` of a file, in the schema's order, those that the file leaves out among them; none
 * where the schema knows of no object there (a part of unknown kind). What a file lists as assumed is no field: it is
 * told of the fields.
 */
export function fieldsAt(source: unknown, path: Path): Field[] {
  const schema = schemaAt(schemaOfCorner(), source, path);
  return schema === undefined ? [] : fieldsIn(schema, source, path);
}

/** The kinds of parts that a file may hold. */
export const partKinds = (): PartKind[] =>
  schemaOfCorner().shape.parts.element.def.options.map((option) => option.shape.kind.value);

function fieldsIn(schema: z.core.$ZodType, source: unknown, path: Path): Field[] {
  const object = optionFor(schema, valueAt(source, path));
  if (!(object instanceof z.ZodObject)) return [];
  return Object.entries(object.shape as Record<string, z.core.$ZodType>)
    .filter(([key]) => key !== 'assumed')
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
    kind: kindOf(schema, inner),
    fallback,
    choices: inner instanceof z.ZodEnum ? inner.options.map(String) : literalsOf(inner),
  };
}

function kindOf(schema: z.core.$ZodType, inner: z.core.$ZodType): FieldKind {
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

/** The schema's own description, or that of what it wraps. */
function descriptionOf(schema: z.core.$ZodType): string | undefined {
  const own = z.globalRegistry.get(schema)?.description;
  if (own !== undefined) return own;
  return schema instanceof z.ZodOptional || schema instanceof z.ZodDefault
    ? descriptionOf(schema.def.innerType)
    : undefined;
}
