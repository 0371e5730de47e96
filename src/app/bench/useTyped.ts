import { useState } from 'react';
import { valueFromText } from '../../design/edit.ts';
import type { ValueField } from '../../design/fields.ts';
import { shownText } from './fieldText.ts';
import type { FieldChange } from './useFieldChange.ts';

/** A field's text while it is typed, and once it is taken. */
export interface Typed {
  /** As it stands in the field. */
  text: string;
  /** Whether it is being typed, changed or not. */
  typing: boolean;
  /** Whether it differs from what the file holds. */
  uncommitted: boolean;
  type(text: string): void;
  /** Back to what the file holds. */
  drop(): void;
  /** Writes it into the file where it says anything else. */
  commit(): void;
}

export function useTyped(field: ValueField, change: FieldChange): Typed {
  const [draft, setDraft] = useState<string>();
  const stands = shownText(field);
  const text = draft ?? stands;
  const drop = () => setDraft(undefined);
  return {
    text,
    typing: draft !== undefined,
    uncommitted: draft !== undefined && draft !== stands,
    type: setDraft,
    drop,
    commit() {
      drop();
      // On one line in the list of changes.
      if (text.trim() !== stands) change(valueFromText(field, text), text.trim().replace(/\s+/g, ' '));
    },
  };
}
