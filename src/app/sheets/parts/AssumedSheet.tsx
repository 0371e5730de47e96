import { useMemo, useState } from 'react';
import { type Field, fieldsAt } from '../../../design/fields.ts';
import { inWords } from '../../../units/plainText.ts';
import { SheetFrame } from '../../kit/SheetFrame.tsx';
import { capital } from '../../kit/words.ts';
import { currentSource, useDocument } from '../../state/documentStore.ts';
import type { OpenCorner } from '../../state/engine.ts';
import { entriesOf, idOf } from '../../state/partEntries.ts';
import { assumedKey, assumedValues, countAssumed } from './assumedValues.ts';
import { FieldRow } from './FieldRows.tsx';
import { SheetContext } from './sheetContext.ts';

/** All assumed values of the corner. A value that is confirmed or changed stays in its row until the sheet closes. */
export function AssumedSheet({ corner, onClose }: { corner: OpenCorner; onClose(): void }) {
  const source = useDocument(currentSource);
  const assumed = useMemo(() => assumedValues(source), [source]);
  const [first] = useState(assumed);
  const left = countAssumed(assumed);
  const groups = useMemo(
    () => first.map((group) => ({ ...group, fields: currentFields(source, group) })),
    [source, first],
  );
  return (
    <SheetFrame title="Assumed values" onClose={onClose}>
      <p className="bench-kind">
        {left === 0
          ? 'No value is assumed.'
          : 'These values are defaults or guesses. If a value is right, press "assumed" or "guess" to confirm it. If not, type or step it.'}
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

/** The same fields with their current values; without those of a part that was removed. */
function currentFields(source: unknown, { id, fields }: ReturnType<typeof assumedValues>[number]): Field[] {
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

/** Names of the groups of a field under its part, with a comma and a space. */
function withinOf({ path }: Field, id: string | undefined): string {
  const groups = path.slice(id === undefined ? 1 : 2, -1);
  if (groups.length === 0) return '';
  const text = groups.map((step) => (typeof step === 'number' ? step + 1 : inWords(step))).join(', ');
  return `${capital(text)}, `;
}
