import type { InputRecord } from '../../design/design.ts';
import { withValue } from '../../design/edit.ts';
import { pathFrom } from '../../design/path.ts';
import type { LengthUnit } from '../../report/figures.ts';
import { parseLength } from '../../units/parseLength.ts';

/**
 * A length as typed with its unit written out, where it leans on the unit of its file; any other text as it stands. A text
 * that is no length in that unit stays as it is.
 */
export function withOwnUnit(text: string, before: LengthUnit): string {
  if (isLength(text, undefined) || !isLength(text, before)) return text;
  // A tolerance without a unit takes the one written last.
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
 * A sound file with another unit for lengths that are typed without one. Those that lean on the unit of before have it
 * written out, so that no length changes.
 */
export function withFileUnit(
  source: unknown,
  inputs: readonly InputRecord[],
  before: LengthUnit | undefined,
  unit: LengthUnit,
): unknown {
  const spelt = inputs.reduce((file, { path, typed, quantity }) => {
    const steps = pathFrom(path);
    if (quantity !== 'length' || typeof typed !== 'string' || steps === undefined || before === undefined)
      return file;
    const text = withOwnUnit(typed, before);
    return text === typed ? file : withValue(file, steps, text);
  }, source);
  return withValue(spelt, ['unit'], unit);
}
