import type { KeyboardEvent } from 'react';
import { valueFromText } from '../../design/edit.ts';
import type { ValueField } from '../../design/fields.ts';
import { keySteps } from './keySteps.ts';
import { useSheet } from './sheetContext.ts';
import { stepped } from './stepText.ts';
import type { FieldChange } from './useFieldChange.ts';
import { useFileUnit } from './useFileUnit.ts';
import { useTyped } from './useTyped.ts';

export interface InputProps {
  id: string;
  field: ValueField;
  spoken: string;
  /** The value in use while none is given; empty where nothing is assumed. */
  assumed: string;
  invalid: boolean;
  /** Ids of the help and of the problem. */
  describedBy: string;
  change: FieldChange;
}

/** A value as typed: Enter or leaving the field takes it, Escape brings back what stood there, arrow keys step it. */
export function TextInput({ id, field, spoken, assumed, invalid, describedBy, change }: InputProps) {
  const { text, typing, uncommitted, type, drop, commit } = useTyped(field, change);
  const fileUnit = useFileUnit();
  const { onField } = useSheet();

  const onKey = (event: KeyboardEvent<HTMLInputElement>) => {
    if (event.key === 'Enter') {
      commit();
      event.currentTarget.select();
    }
    if (event.key === 'Escape' && typing) {
      event.stopPropagation();
      drop();
    }
    const steps = keySteps(event);
    if (steps === 0) return;
    const next = stepped(field.kind, text || assumed, steps, fileUnit);
    if (next === undefined) return;
    event.preventDefault();
    drop();
    change(valueFromText(field, next), next, true);
  };
  return (
    <input
      id={id}
      type="text"
      value={text}
      placeholder={assumed || (field.optional ? 'not given' : '')}
      aria-label={spoken}
      aria-describedby={describedBy || undefined}
      aria-invalid={invalid}
      aria-required={!field.optional}
      data-uncommitted={uncommitted}
      autoComplete="off"
      spellCheck={false}
      onChange={(event) => type(event.target.value)}
      onKeyDown={onKey}
      onFocus={() => onField?.(field.path)}
      onBlur={() => {
        onField?.(undefined);
        commit();
      }}
    />
  );
}
