import type { ReactNode } from 'react';
import { withGiven } from '../../../design/assumed.ts';
import type { Field } from '../../../design/fields.ts';
import { currentSource, useDocument } from '../../state/documentStore.ts';
import { useSession } from '../../state/session.ts';
import { useSheet } from './sheetContext.ts';
import { useProblem } from './useProblem.ts';

/** Frame of a group or a list: its name, the problem of the whole, and a remove button if it is optional. */
export function FieldSet({ field, name, children }: { field: Field; name: string; children: ReactNode }) {
  const problem = useProblem(field.path);
  return (
    <fieldset className="bench-group" title={field.description}>
      <legend>{name}</legend>
      {field.optional && field.typed !== undefined && <RemoveButton field={field} name={name} />}
      {problem !== undefined && (
        <p className="bench-problem" role="alert">
          {name} {problem}
        </p>
      )}
      {children}
    </fieldset>
  );
}

export function RemoveButton({ field, name }: { field: Field; name: string }) {
  const session = useSession();
  const { owner } = useSheet();
  return (
    <button
      type="button"
      className="quiet bench-remove"
      aria-label={`Remove ${name.toLowerCase()}`}
      onClick={() => {
        const source = currentSource(useDocument.getState());
        void session.change(
          `${owner}: ${name.toLowerCase()} removed`,
          withGiven(source, field.path, undefined),
        );
      }}
    >
      Remove
    </button>
  );
}
