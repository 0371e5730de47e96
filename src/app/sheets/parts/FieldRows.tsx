import { withAssumed } from '../../../design/assumed.ts';
import { withValue } from '../../../design/edit.ts';
import type { Field, GroupField } from '../../../design/fields.ts';
import { pathText } from '../../../design/path.ts';
import { currentSource, useDocument } from '../../state/documentStore.ts';
import { absentText, fieldName, isAbsent } from '../../state/fieldText.ts';
import { useSession } from '../../state/session.ts';
import { startingGroup } from '../../state/startingParts.ts';
import { FieldSet } from './FieldSet.tsx';
import { type FieldRowsProps, ListRows } from './ListRows.tsx';
import { useSheet } from './sheetContext.ts';
import { ValueRow } from './ValueRow.tsx';

/** Fields of the file, one per row; groups and lists under their name. */
export function FieldRows({ fields, within = '' }: FieldRowsProps) {
  return fields.map((field) => <FieldRow key={pathText(field.path)} field={field} within={within} />);
}

export function FieldRow({ field, within }: { field: Field; within: string }) {
  const name = fieldName(field.key);
  const spoken = within === '' ? name : `${within}${name.charAt(0).toLowerCase()}${name.slice(1)}`;
  if (field.kind !== 'group' && field.kind !== 'list')
    // A field with a single choice is not shown.
    return field.choices.length === 1 ? null : <ValueRow field={field} name={name} spoken={spoken} />;
  if (isAbsent(field)) return <AbsentRow field={field} name={name} />;
  if (field.kind === 'list') return <ListRows field={field} name={name} spoken={spoken} Rows={FieldRows} />;
  return <GroupRows field={field} name={name} spoken={spoken} />;
}

/** An optional group or list that the part does not have. */
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
          const source = currentSource(useDocument.getState());
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
