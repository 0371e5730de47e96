import type { z } from 'zod';
import { parseAngle } from '../units/angle.ts';
import { lengthText } from '../units/formatLength.ts';
import { parseLength } from '../units/parseLength.ts';
import type { Problem } from '../units/problem.ts';
import { isListedAssumed } from './assumed.ts';
import type { InputRecord, PlusMinus } from './design.ts';
import { MARKS } from './marks.ts';
import { type Path, pathFrom, pathText, snippet } from './path.ts';
import type { Corner } from './schema.ts';
import { childSchema, isAboveZero, measureOf, schemaAt } from './schemaWalk.ts';

/** The parsed values of a corner file, or of those pieces of it that can be read. */
export type ReadValues = Pick<Corner, 'unit' | 'measuredTo'> & Readonly<Record<string, unknown>>;

/** Whether the value at a path belongs to a part or to the suspension, and is not an allowance. */
export const isDimension = (path: Path): boolean =>
  (path[0] === 'parts' || path[0] === 'suspension') && path[path.length - 1] !== 'allowance';

/** Every value of a corner with its typed form in `source`, in the schema's order. */
export function inputsOf(schema: z.core.$ZodType, source: unknown, corner: ReadValues): InputRecord[] {
  const records: InputRecord[] = [];
  const walk = (at: z.core.$ZodType | undefined, typed: unknown, value: unknown, path: Path): void => {
    if (at === undefined || value === undefined) return;
    if (typeof value !== 'object') {
      const assumed = typed === undefined || isListedAssumed(source, path);
      const quantity = measureOf(at) ?? 'other';
      records.push({
        path: pathText(path),
        typed: typed as InputRecord['typed'],
        value: value as InputRecord['value'],
        quantity,
        plusMinus: plusMinusOf(typed, quantity, assumed || !isDimension(path), corner),
        assumed,
      });
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

/** The ± typed with a value, else that of the file's `measuredTo` if the value is measured. */
function plusMinusOf(
  typed: unknown,
  quantity: InputRecord['quantity'],
  isNotMeasured: boolean,
  { unit, measuredTo }: ReadValues,
): PlusMinus | undefined {
  if (quantity === 'length' && typeof typed === 'string') {
    const { plusMinusMm } = parseLength(typed, { unit });
    if (plusMinusMm !== undefined) return { amount: plusMinusMm, from: 'typed' };
  }
  if (quantity === 'angle' && typeof typed === 'string') {
    const plusMinusDeg = parseAngle(typed)?.plusMinusDeg;
    if (plusMinusDeg !== undefined) return { amount: plusMinusDeg, from: 'typed' };
  }
  const amount = quantity === 'other' ? undefined : measuredTo?.[quantity];
  return isNotMeasured || amount === undefined ? undefined : { amount, from: 'measuredTo' };
}

/** A problem for each length that must be above zero and is not larger than its ±. */
export function plusMinusProblems(
  schema: z.core.$ZodType,
  corner: ReadValues,
  inputs: readonly InputRecord[],
): Problem[] {
  return inputs.flatMap(({ path, typed, value, plusMinus }) => {
    const at = plusMinus && schemaAt(schema, corner, pathFrom(path) ?? []);
    if (at === undefined || plusMinus === undefined || plusMinus.amount < Number(value) || !isAboveZero(at))
      return [];
    const [shownValue, shown] = [Number(value), plusMinus.amount].map((mm) => lengthText(mm, corner.unit));
    const message =
      plusMinus.from === 'typed'
        ? `has a ± of ${shown}, which must be less than the value, ${shownValue}; write a smaller ±`
        : `is ${shownValue}, and must be more than the ± of measuredTo, ${shown}; type its own ± with it, such as "${shownValue} ±${lengthText(Number(value) / 10, corner.unit)}"`;
    return [{ path, found: snippet(typed), message }];
  });
}
