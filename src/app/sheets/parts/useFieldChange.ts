import type { ListField, ValueField } from '../../../design/fields.ts';
import { pathText } from '../../../design/path.ts';
import { currentSource, useDocument } from '../../state/documentStore.ts';
import { withTyped } from '../../state/partEdits.ts';
import { useSession } from '../../state/session.ts';
import { useSheet } from './sheetContext.ts';

/**
 * Writes a value into the file. `text`: the value in the list of changes. `run`: true merges quick steps into one change; a
 * merge key merges all steps of a drag.
 */
export type FieldChange = (value: unknown, text: string, run?: boolean | string) => void;

export function useFieldChange(field: ValueField, spoken: string, list: ListField | undefined): FieldChange {
  const session = useSession();
  const { owner } = useSheet();
  return (value, text, run = false) => {
    const source = withTyped(currentSource(useDocument.getState()), field, value, list);
    const label = `${owner}, ${spoken.charAt(0).toLowerCase()}${spoken.slice(1)}: ${text === '' ? 'cleared' : text}`;
    if (typeof run === 'string') void session.change(label, source, run, true);
    else void session.change(label, source, run ? pathText(field.path) : undefined);
  };
}
