import { useMemo, useState } from 'react';
import { type Field, fieldsAt } from '../../design/fields.ts';
import type { OpenCorner } from '../engine.ts';
import { inWords } from '../panels/inputText.ts';
import { sourceInHand, useDocument } from '../stores/documentStore.ts';
import { capital } from '../words.ts';
import { assumedKey, assumedValues, countAssumed } from './assumedValues.ts';
import { FieldRow } from './FieldRows.tsx';
import { entriesOf, idOf } from './partOf.ts';
import { SheetFrame } from './SheetFrame.tsx';
import { SheetContext } from './sheetContext.ts';

/** All that is assumed in the corner. What is confirmed or changed here stays in its place until the sheet is closed. */
export function AssumedSheet({ corner, onClose }: { corner: OpenCorner; onClose(): void }) {
  const source = useDocument(sourceInHand);
  const assumed = useMemo(() => assumedValues(source), [source]);
  const [first] = useState(assumed);
  const left = countAssumed(assumed);
  const groups = useMemo(
    () => first.map((group) => ({ ...group, fields: asTheyStand(source, group) })),
    [source, first],
  );
  return (
    <SheetFrame title="Assumed values" onClose={onClose}>
      <p className="bench-kind">
        {left === 0
          ? 'Nothing is assumed any more.'
          : 'Nobody has given these values. Press "assumed" or "guess" where the value is what you have; type or step it where it is not.'}
      </p>
      {groups.map((group) => (
        <fieldset key={group.id ?? 'suspension'} className="bench-group">
          <legend>{group.owner}</legend>
          <SheetContext
            value={{
              corner,
              part: partIndex(corner, group.id),
              owner: group.owner,
            }}
          >
            {group.fields.map((field) => (
              <FieldRow key={assumedKey(group, field)} field={field} within={withinOf(field, group.id)} />
            ))}
          </SheetContext>
        </fieldset>
      ))}
    </SheetFrame>
  );
}

/** The same fields as the file has them now; those of a part that is gone are left out. */
function asTheyStand(source: unknown, { id, fields }: ReturnType<typeof assumedValues>[number]): Field[] {
  const at = entriesOf(source).findIndex((entry) => idOf(entry) === id);
  if (id !== undefined && at < 0) return [];
  return fields.flatMap(({ path }) => {
    const now = id === undefined ? path : ['parts', at, ...path.slice(2)];
    const key = now[now.length - 1];
    return fieldsAt(source, now.slice(0, -1)).filter((field) => field.key === key);
  });
}

const partIndex = (corner: OpenCorner, id: string | undefined): number | undefined => {
  const index = corner.design.corner.parts.findIndex((part) => part.id === id);
  return index < 0 ? undefined : index;
};

/** The groups that a field stands in under its part. */
function withinOf({ path }: Field, id: string | undefined): string {
  const groups = path.slice(id === undefined ? 1 : 2, -1);
  if (groups.length === 0) return '';
  const text = groups.map((step) => (typeof step === 'number' ? step + 1 : inWords(step))).join(', ');
  return `${capital(text)}, `;
}
