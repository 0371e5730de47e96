import type { Design, InputRecord } from '../../design/design.ts';
import { isDimension } from '../../design/inputs.ts';
import { pathFrom } from '../../design/path.ts';
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
