import type { z } from 'zod';
import type { LengthUnit } from '../units/lengthUnits.ts';
import { parseLength } from '../units/parseLength.ts';
import { isListedAssumed } from './assumed.ts';
import type { InputRecord } from './design.ts';
import { MARKS } from './marks.ts';
import { type Path, pathText } from './path.ts';
import type { Corner } from './schema.ts';
import { childSchema, measureOf } from './schemaWalk.ts';

/** Every value of a valid corner with its typed form in `source`, in the schema's order. */
export function inputsOf(schema: z.core.$ZodType, source: unknown, corner: Corner): InputRecord[] {
  const records: InputRecord[] = [];
  const walk = (at: z.core.$ZodType | undefined, typed: unknown, value: unknown, path: Path): void => {
    if (at === undefined || value === undefined) return;
    if (typeof value !== 'object') {
      const record = recordOf(at, typed, value as InputRecord['value'], path, corner.unit);
      records.push({ ...record, assumed: typed === undefined || isListedAssumed(source, path) });
      return;
    }
    const entries = Array.isArray(value) ? [...value.entries()] : Object.entries(value as object);
    for (const [key, child] of entries) {
      if (MARKS.has(key)) continue;
      const typedChild = (typed as Record<string | number, unknown> | undefined)?.[key];
      walk(childSchema(at, value, key), typedChild, child, [...path, key]);
    }
  };
  walk(schema, source, corner, []);
  return records;
}

function recordOf(
  schema: z.core.$ZodType,
  typed: unknown,
  value: InputRecord['value'],
  path: Path,
  unit: LengthUnit | undefined,
): Omit<InputRecord, 'assumed'> {
  const quantity = measureOf(schema) ?? 'other';
  const text = quantity === 'length' && typeof typed === 'string' ? typed : undefined;
  return {
    path: pathText(path),
    typed: typed as InputRecord['typed'],
    value,
    quantity,
    plusMinusMm: text === undefined ? undefined : parseLength(text, { unit }).plusMinusMm,
  };
}
