import type { Design, InputRecord } from '../../design/design.ts';
import { isDimension } from '../../design/inputs.ts';
import { pathFrom, valueAt } from '../../design/path.ts';
import { parseLength } from '../../units/parseLength.ts';
import type { Problem } from '../../units/problem.ts';
import { type VariedField, variedName } from '../vary/variedField.ts';

/** A length or angle of the file. */
export interface StudiedInput {
  field: VariedField & { kind: 'length' | 'angle' };
  input: InputRecord;
}

/** A length or angle whose effect is measured. */
export interface StudiedValue extends StudiedInput {
  /** Reasons why the corner cannot be built one step below or above the value; empty if it can. */
  problems: readonly Problem[];
}

/**
 * The lengths and angles of a corner's parts and suspension, in the file's order. Allowances are left out: they change the
 * margin and not the clearance.
 */
export const studiedInputs = ({ source, inputs }: Design): StudiedInput[] =>
  inputs.flatMap((input): StudiedInput[] => {
    const path = pathFrom(input.path);
    if (path === undefined || input.quantity === 'other' || !isDimension(path)) return [];
    return [{ field: { name: variedName(source, path), path, kind: input.quantity }, input }];
  });

/** The value in the file, mm or degrees; Z of a point from the file's own origin. */
export function amountInFile({ source, corner }: Design, { field, input }: StudiedInput): number {
  // A point's height is typed from the file's origin, and is given from the ground.
  const typed = valueAt(source, field.path);
  return typeof typed === 'string' && field.kind === 'length'
    ? parseLength(typed, { unit: corner.unit }).mm
    : Number(typed ?? input.value);
}
