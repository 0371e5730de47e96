import { valueFromText } from '../../../design/edit.ts';
import type { ValueField } from '../../../design/fields.ts';
import { TypedField } from '../../kit/TypedField.tsx';
import { useDraft } from '../../kit/useDraft.ts';
import { shownText } from '../../state/fieldText.ts';
import { useFileUnit } from '../../state/useFileUnit.ts';
import { useSheet } from './sheetContext.ts';
import type { FieldChange } from './useFieldChange.ts';

export interface InputProps {
  id: string;
  field: ValueField;
  spoken: string;
  /** The assumed value; empty if there is none. */
  assumed: string;
  invalid: boolean;
  /** Ids of the help and of the problem. */
  describedBy: string;
  change: FieldChange;
}

/** A value as typed. Enter or leaving the field commits, Escape reverts, arrow keys step. `rows`: for several lines. */
export function TextInput({
  id,
  field,
  spoken,
  assumed,
  invalid,
  describedBy,
  change,
  rows,
}: InputProps & { rows?: number }) {
  const fileUnit = useFileUnit();
  const { onField } = useSheet();
  const draft = useDraft(shownText(field), (text) => {
    // One line in the list of changes.
    change(valueFromText(field, text), text.trim().replace(/\s+/g, ' '));
    return undefined;
  });
  return (
    <TypedField
      id={id}
      text={draft.text}
      kind={field.kind}
      unit={fileUnit}
      fallback={assumed}
      rows={rows}
      placeholder={assumed || (field.optional ? 'not given' : '')}
      spoken={spoken}
      describedBy={describedBy}
      isWrong={invalid}
      isRequired={!field.optional}
      isUncommitted={draft.isUncommitted}
      onType={draft.type}
      onStep={(next) => {
        draft.revert?.();
        change(valueFromText(field, next), next, true);
      }}
      onEnter={() => draft.commit()}
      onRevert={draft.revert}
      onFocus={() => onField?.(field.path)}
      onBlur={() => {
        onField?.(undefined);
        draft.commit();
      }}
    />
  );
}
