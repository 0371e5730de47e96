import { isListedAssumed } from '../../../design/assumed.ts';
import { type Field, fieldsAt } from '../../../design/fields.ts';
import { pathText } from '../../../design/path.ts';
import { assumedIn } from '../../state/fieldText.ts';
import { entriesOf, idOf, nameOf } from '../../state/partEntries.ts';

/** The assumed values of one part, or of the suspension. */
export interface AssumedGroup {
  owner: string;
  /** Id of the part; undefined for the suspension. */
  id: string | undefined;
  fields: readonly Field[];
}

/** Fields of a file whose value is a default or an unconfirmed guess, by part; without parts that have none. */
export function assumedValues(source: unknown): AssumedGroup[] {
  const guessed = ({ path }: Field) => isListedAssumed(source, path);
  const parts = entriesOf(source).map((entry, at) => ({
    owner: nameOf(entry),
    id: idOf(entry),
    fields: assumedIn(fieldsAt(source, ['parts', at]), guessed),
  }));
  const suspension = {
    owner: 'Suspension',
    id: undefined,
    fields: assumedIn(fieldsAt(source, ['suspension']), guessed),
  };
  return [...parts, suspension].filter(({ fields }) => fields.length > 0);
}

export const countAssumed = (groups: readonly AssumedGroup[]): number =>
  groups.reduce((count, { fields }) => count + fields.length, 0);

/** Unique key of a field, independent of its part's index in the file. */
export const assumedKey = ({ id }: AssumedGroup, field: Field): string =>
  `${id} ${pathText(id === undefined ? field.path : field.path.slice(2))}`;
