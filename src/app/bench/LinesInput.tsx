import type { KeyboardEvent } from 'react';
import { useSheet } from './sheetContext.ts';
import type { InputProps } from './TextInput.tsx';
import { useTyped } from './useTyped.ts';

const ROWS = 5;

/** Text of several lines: Enter begins a new one, Ctrl or Cmd and Enter or leaving takes it, Escape brings back what stood there. */
export function LinesInput({ id, field, spoken, invalid, describedBy, change }: InputProps) {
  const typed = useTyped(field, change);
  const { onField } = useSheet();
  const onKey = (event: KeyboardEvent<HTMLTextAreaElement>) => {
    if (event.key === 'Enter' && (event.ctrlKey || event.metaKey)) {
      event.preventDefault();
      typed.commit();
    }
    if (event.key === 'Escape' && typed.typing) {
      event.stopPropagation();
      typed.drop();
    }
  };
  return (
    <textarea
      id={id}
      rows={ROWS}
      value={typed.text}
      placeholder={field.optional ? 'not given' : ''}
      aria-label={spoken}
      aria-describedby={describedBy || undefined}
      aria-invalid={invalid}
      aria-required={!field.optional}
      data-uncommitted={typed.uncommitted}
      autoComplete="off"
      onChange={(event) => typed.type(event.target.value)}
      onKeyDown={onKey}
      onFocus={() => onField?.(field.path)}
      onBlur={() => {
        onField?.(undefined);
        typed.commit();
      }}
    />
  );
}
