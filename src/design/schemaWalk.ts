import { z } from 'zod';
import type { Path } from './path.ts';
import type { Measure } from './quantities.ts';

/** The schema behind optional, default and transform. */
export function bare(schema: z.core.$ZodType): z.core.$ZodType {
  if (schema instanceof z.ZodOptional || schema instanceof z.ZodDefault) return bare(schema.def.innerType);
  if (schema instanceof z.ZodPipe) return bare(schema.def.in);
  return schema;
}

/** What a number here measures, by the schema or one that it wraps; undefined for counts, codes and whatever is no number. */
export function measureOf(schema: z.core.$ZodType): Measure | undefined {
  const measure = z.globalRegistry.get(schema)?.quantity;
  if (measure === 'length' || measure === 'angle') return measure;
  if (schema instanceof z.ZodOptional || schema instanceof z.ZodDefault)
    return measureOf(schema.def.innerType);
  return undefined;
}

/** The option of a union by `kind` or the like that `value` names; the schema itself where it is no union. */
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

/** The names that tell the options of a union apart; none where the schema is no such union. */
export function optionNames(schema: z.core.$ZodType): string[] {
  const inner = bare(schema);
  if (!(inner instanceof z.ZodDiscriminatedUnion)) return [];
  return inner.def.options.flatMap((option) => {
    const literal = option instanceof z.ZodObject ? option.shape[inner.def.discriminator] : undefined;
    return literal instanceof z.ZodLiteral ? literal.def.values.map(String) : [];
  });
}

/** The schema of one field or item of `value`; undefined where the schema knows of none. */
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

/** The schema at a path of `root`, by the kinds that `root` itself names on the way. */
export function schemaAt(schema: z.core.$ZodType, root: unknown, path: Path): z.core.$ZodType | undefined {
  let [at, value]: [z.core.$ZodType | undefined, unknown] = [schema, root];
  for (const step of path) {
    if (at === undefined) return undefined;
    at = childSchema(at, value, step);
    value = (value as Record<string | number, unknown> | undefined | null)?.[step];
  }
  return at;
}

/** The field names that an object at this place may have. */
export function knownKeys(schema: z.core.$ZodType, value: unknown): string[] {
  const inner = optionFor(schema, value);
  return inner instanceof z.ZodObject ? Object.keys(inner.shape) : [];
}
