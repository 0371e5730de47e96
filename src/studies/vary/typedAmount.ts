import type { Design, InputRecord } from '../../design/design.ts';
import { valueAt } from '../../design/path.ts';
import { parseAngle } from '../../units/angle.ts';
import { parseLength } from '../../units/parseLength.ts';
import type { VariedField } from './variedField.ts';

/**
 * The number that a field holds in the file: mm, degrees or a plain number; the default if the file leaves it out. Unlike
 * the value in use, the height of a point is from the file's own origin.
 */
export function typedAmount(
  { source, corner }: Pick<Design, 'source' | 'corner'>,
  { path, kind }: VariedField,
  { value }: InputRecord,
): number {
  const typed = valueAt(source, path);
  if (typeof typed === 'string') {
    if (kind === 'length') return parseLength(typed, { unit: corner.unit }).mm;
    if (kind === 'angle') return parseAngle(typed)?.degrees ?? Number.NaN;
  }
  return Number(typed ?? value);
}
