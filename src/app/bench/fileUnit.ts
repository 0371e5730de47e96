import type { InputRecord } from '../../design/design.ts';
import { withValue } from '../../design/edit.ts';
import { pathFrom } from '../../design/path.ts';
import type { LengthUnit } from '../../report/figures.ts';
import { parseLength } from '../../units/parseLength.ts';

/** Whether a text is a length only with the unit that its file declares. */
function leansOnFile(text: string): boolean {
  try {
    parseLength(text, { unit: undefined });
    return false;
  } catch {
    return true;
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
    if (quantity !== 'length' || typeof typed !== 'string' || steps === undefined || !leansOnFile(typed))
      return file;
    // A tolerance without a unit takes the one written last.
    const text = typed.replace(/\s*(?=±|\+\/-|\+-|$)/, ` ${before} `).trim();
    return withValue(file, steps, text);
  }, source);
  return withValue(spelt, ['unit'], unit);
}
