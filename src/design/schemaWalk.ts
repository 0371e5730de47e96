import { z } from 'zod';
import type { Measure } from '../units/quantities.ts';
import type { Path } from './path.ts';

/** The schema inside optional, default and transform. */
export function bare(schema: z.core.$ZodType): z.core.$ZodType {
  if (schema instanceof z.ZodOptional || schema instanceof z.ZodDefault) return bare(schema.def.innerType);
  if (schema instanceof z.ZodPipe) return bare(schema.def.in);
  return schema;
}

/** Quantity that a number here measures, from the schema or one that it wraps; undefined for counts, codes and other values. */
export function measureOf(schema: z.core.$ZodType): Measure | undefined {
  const measure = z.globalRegistry.get(schema)?.quantity;
  if (measure === 'length' || measure === 'angle') return measure;
  if (schema instanceof z.ZodOptional || schema instanceof z.ZodDefault)
    return measureOf(schema.def.innerType);
  return undefined;
}

/** Whether a length here must be above zero: that of a `size`. */
export function isAboveZero(schema: z.core.$ZodType): boolean {
  if (schema instanceof z.ZodOptional || schema instanceof z.ZodDefault)
    return isAboveZero(schema.def.innerType);
  return z.globalRegistry.get(schema)?.aboveZero === true;
}

/** The schema's own description, or that of the schema that it wraps. */
export function descriptionOf(schema: z.core.$ZodType): string | undefined {
  const own = z.globalRegistry.get(schema)?.description;
  if (own !== undefined) return own;
  return schema instanceof z.ZodOptional || schema instanceof z.ZodDefault
    ? descriptionOf(schema.def.innerType)
    : undefined;
}

/** The option of a discriminated union that `value` selects; the schema itself if it is no union. */
export function optionFor(schema: z.core.$ZodType, value: unknown): z.core.$ZodType | undefined {
  const inner = bare(schema);
  if (!(inner instanceof z.ZodDiscriminatedUnion)) return inner;
  const { discriminator, options } = inner.def;
  if (typeof value !== 'object' || value === null) return undefined;
  const name = (value as Record<string, unknown>)[discriminator];
  return options.find((option) => {
    const literal = option instanceof z.ZodObject ? option.shape[discriminator] : undefined;
    return literal instanceof z.ZodLiteral && literal.def.values.includes(name as z.core.util.Literal);
  });
}

/** The discriminator values of a union's options; none if the schema is no discriminated union. */
export function optionNames(schema: z.core.$ZodType): string[] {
  const inner = bare(schema);
  if (!(inner instanceof z.ZodDiscriminatedUnion)) return [];
  return inner.def.options.flatMap((option) => {
    const literal = option instanceof z.ZodObject ? option.shape[inner.def.discriminator] : undefined;
    return literal instanceof z.ZodLiteral ? literal.def.values.map(String) : [];
  });
}

/** The schema of one field or item of `value`; undefined if the schema has none. */
export function childSchema(
  schema: z.core.$ZodType,
  value: unknown,
  key: string | number,
): z.core.$ZodType | undefined {
  const inner = optionFor(schema, value);
  if (inner instanceof z.ZodObject) {
    const shape: Readonly<Record<string, z.core.$ZodType>> = inner.shape;
    return Object.hasOwn(shape, key) ? shape[key] : undefined;
  }
  if (inner instanceof z.ZodArray) return inner.def.element;
  if (inner instanceof z.ZodTuple && typeof key === 'number') return inner.def.items[key];
  return undefined;
}

/** The schema at a path of `root`. On the way, the values of `root` select the options of unions. */
export function schemaAt(schema: z.core.$ZodType, root: unknown, path: Path): z.core.$ZodType | undefined {
  let [at, value]: [z.core.$ZodType | undefined, unknown] = [schema, root];
  for (const step of path) {
    if (at === undefined) return undefined;
    at = childSchema(at, value, step);
    value = (value as Record<string | number, unknown> | undefined | null)?.[step];
  }
  return at;
}

/** Names of the fields that an object here may have. */
export function knownKeys(schema: z.core.$ZodType, value: unknown): string[] {
  const inner = optionFor(schema, value);
  return inner instanceof z.ZodObject ? Object.keys(inner.shape) : [];
}
