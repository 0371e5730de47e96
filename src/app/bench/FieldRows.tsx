import type { ReactNode } from 'react';
import { withAssumed, withGiven } from '../../design/assumed.ts';
import { withValue } from '../../design/edit.ts';
import type { Field, GroupField } from '../../design/fields.ts';
import { pathText } from '../../design/path.ts';
import { useSession } from '../session.ts';
import { sourceInHand, useDocument } from '../stores/documentStore.ts';
import { absentText, fieldName, isAbsent } from './fieldText.ts';
import { ListRows } from './ListRows.tsx';
import { useSheet } from './sheetContext.ts';
import { startingGroup } from './startingParts.ts';
import { useProblem } from './useProblem.ts';
import { ValueRow } from './ValueRow.tsx';

interface FieldRowsProps {
  fields: readonly Field[];
  /** Name of what the fields are in, with a comma and a space; empty at the top of a sheet. */
  within?: string;
}

/** Fields of the file, one a row; groups and lists under their name. */
export function FieldRows({ fields, within = '' }: FieldRowsProps) {
  return fields.map((field) => <FieldRow key={pathText(field.path)} field={field} within={within} />);
}

export function FieldRow({ field, within }: { field: Field; within: string }) {
  const name = fieldName(field.key);
  const spoken = within === '' ? name : `${within}${name.charAt(0).toLowerCase()}${name.slice(1)}`;
  if (field.kind !== 'group' && field.kind !== 'list')
    // What has one choice only says nothing.
    return field.choices.length === 1 ? null : <ValueRow field={field} name={name} spoken={spoken} />;
  if (isAbsent(field)) return <AbsentRow field={field} name={name} />;
  if (field.kind === 'list') return <ListRows field={field} name={name} spoken={spoken} />;
  return <GroupRows field={field} name={name} spoken={spoken} />;
}

/** What a part may have and lacks. */
function AbsentRow({ field, name }: { field: Field; name: string }) {
  const session = useSession();
  const { corner, part, owner } = useSheet();
  const start = corner && startingGroup(String(field.key), corner.design.corner, part);
  return (
    <div className="bench-row bench-absent" title={field.description}>
      <span>
        {name}: {absentText(field.key)}
      </span>
      <button
        type="button"
        aria-label={`Add ${name.toLowerCase()}`}
        onClick={() => {
          const source = sourceInHand(useDocument.getState());
          const label = `${owner}: ${name.toLowerCase()} added, dimensions not measured yet`;
          const changed = withValue(source, field.path, start ?? {});
          void session.change(label, withAssumed(changed, field.path));
        }}
      >
        Add
      </button>
    </div>
  );
}

function GroupRows({ field, name, spoken }: { field: GroupField; name: string; spoken: string }) {
  return (
    <FieldSet field={field} name={name}>
      <FieldRows fields={field.fields} within={`${spoken}, `} />
    </FieldSet>
  );
}

/** The frame of a group or a list: its name, what is wrong with it as a whole, and taking it away where that may be. */
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
        const source = sourceInHand(useDocument.getState());
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
