import type { InputRecord } from '../../design/design.ts';
import { withValue } from '../../design/edit.ts';
import { pathFrom } from '../../design/path.ts';
import type { LengthUnit } from '../../report/figures.ts';
import { parseLength } from '../../units/parseLength.ts';

/**
 * A length as typed, with the unit `before` appended if it has no unit of its own. Any other text, and a text that is not a
 * valid length, is returned unchanged.
 */
export function withOwnUnit(text: string, before: LengthUnit): string {
  if (isLength(text, undefined) || !isLength(text, before)) return text;
  // A tolerance without a unit uses the unit before it.
  return text.replace(/\s*(?=±|\+\/-|\+-|$)/, ` ${before} `).trim();
}

function isLength(text: string, unit: LengthUnit | undefined): boolean {
  try {
    parseLength(text, { unit });
    return true;
  } catch {
    return false;
  }
}

/**
 * A valid file with another unit for lengths typed without one. Lengths without a unit get the old unit appended, so that no
 * length changes.
 */
export function withFileUnit(
  source: unknown,
  inputs: readonly InputRecord[],
  before: LengthUnit | undefined,
  unit: LengthUnit,
): unknown {
  const explicit = inputs.reduce((file, { path, typed, quantity }) => {
    const steps = pathFrom(path);
    if (quantity !== 'length' || typeof typed !== 'string' || steps === undefined || before === undefined)
      return file;
    const text = withOwnUnit(typed, before);
    return text === typed ? file : withValue(file, steps, text);
  }, source);
  return withValue(explicit, ['unit'], unit);
}
