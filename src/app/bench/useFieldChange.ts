import type { ListField, ValueField } from '../../design/fields.ts';
import { pathText } from '../../design/path.ts';
import { useSession } from '../session.ts';
import { sourceInHand, useDocument } from '../stores/documentStore.ts';
import { withTyped } from './partEdits.ts';
import { useSheet } from './sheetContext.ts';

/**
 * Writes a value into the file in hand; `text` tells it in the list of changes. `run` makes a quick run of steps one change;
 * the name of a drag, all steps of that drag.
 */
export type FieldChange = (value: unknown, text: string, run?: boolean | string) => void;

export function useFieldChange(field: ValueField, spoken: string, list: ListField | undefined): FieldChange {
  const session = useSession();
  const { owner } = useSheet();
  return (value, text, run = false) => {
    const source = withTyped(sourceInHand(useDocument.getState()), field, value, list);
    const label = `${owner}, ${spoken.charAt(0).toLowerCase()}${spoken.slice(1)}: ${text === '' ? 'emptied' : text}`;
    if (typeof run === 'string') void session.change(label, source, run, true);
    else void session.change(label, source, run ? pathText(field.path) : undefined);
  };
}
