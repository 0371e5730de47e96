import { useEffect, useRef } from 'react';
import { withAssumed } from '../../design/assumed.ts';
import { withValue } from '../../design/edit.ts';
import type { ListField, ValueField } from '../../design/fields.ts';
import { pathText, valueAt } from '../../design/path.ts';
import { useSession } from '../session.ts';
import { sourceInHand, useDocument } from '../stores/documentStore.ts';
import { useView } from '../stores/viewStore.ts';
import { ConfirmButton } from './ConfirmButton.tsx';
import { FieldRows, FieldSet, RemoveButton } from './FieldRows.tsx';
import { assumedText, shownText } from './fieldText.ts';
import { useSheet } from './sheetContext.ts';
import { nextItem } from './startingParts.ts';
import { useConfirmGuess } from './useConfirmGuess.ts';
import { useGuessed } from './useGuessed.ts';
import { useProblem } from './useProblem.ts';
import { ValueRow } from './ValueRow.tsx';

interface ListRowsProps {
  field: ListField;
  name: string;
  spoken: string;
}

const AXES = ['X', 'Y', 'Z'];

/** What an item of a list is called. */
const ITEM_NAMES: Record<string, string> = { outline: 'Corner', innerBarrel: 'Station' };

/** A point or a direction in one row; any other list with an item under the other. */
export function ListRows(props: ListRowsProps) {
  return props.field.length === 3 ? <TripleRow {...props} /> : <GrowingRows {...props} />;
}

function TripleRow({ field, name, spoken, children }: ListRowsProps & { children?: React.ReactNode }) {
  const session = useSession();
  const { owner, chosen } = useSheet();
  const unit = useView((view) => view.unit);
  const problem = useProblem(field.path);
  const values = field.items as readonly ValueField[];
  const assumed = field.typed === undefined && values.every(({ fallback }) => fallback !== undefined);
  const guessed = useGuessed(field);
  const confirmGuess = useConfirmGuess(field, spoken);
  const confirm = () => {
    const fallbacks = values.map(({ fallback }) => fallback);
    const source = withValue(sourceInHand(useDocument.getState()), field.path, fallbacks);
    void session.change(`${owner}, ${spoken.toLowerCase()}: confirmed`, source);
  };
  return (
    <fieldset
      className="bench-triple"
      title={field.description}
      data-assumed={assumed}
      data-chosen={chosen === pathText(field.path)}
    >
      <legend>{name}</legend>
      {field.optional && field.typed !== undefined && <RemoveButton field={field} name={name} />}
      {assumed && (
        <ConfirmButton
          spoken={spoken}
          assumed={values.map((value) => assumedText(value, unit)).join(', ')}
          onConfirm={confirm}
        />
      )}
      {guessed && (
        <ConfirmButton
          spoken={spoken}
          assumed={values.map((value) => shownText(value)).join(', ')}
          guess
          onConfirm={confirmGuess}
        />
      )}
      {children}
      <div>
        {values.map((value, axis) => (
          <ValueRow
            key={AXES[axis]}
            field={value}
            name={AXES[axis]}
            spoken={`${spoken}, ${AXES[axis]}`}
            list={field}
          />
        ))}
      </div>
      {problem !== undefined && (
        <p className="bench-problem" role="alert">
          {name} {problem}
        </p>
      )}
    </fieldset>
  );
}

function GrowingRows({ field, name, spoken }: ListRowsProps) {
  const session = useSession();
  const { corner, part, owner } = useSheet();
  const itemName = ITEM_NAMES[field.key] ?? name;
  const addButton = useRef<HTMLButtonElement>(null);
  const count = useRef(field.items.length);
  useEffect(() => {
    // The new item stands before the button.
    if (field.items.length > count.current)
      for (const shown of [addButton.current?.previousElementSibling, addButton.current])
        shown?.scrollIntoView({ block: 'nearest' });
    count.current = field.items.length;
  }, [field.items.length]);
  const grow = () => {
    // The sound corner has every length in mm, whatever was typed.
    const sound = valueAt(corner?.design.corner, ['parts', part ?? -1, field.key]);
    const next = nextItem(Array.isArray(sound) ? sound : []);
    const source = sourceInHand(useDocument.getState());
    const path = [...field.path, field.items.length];
    const changed = withAssumed(withValue(source, path, next), path);
    void session.change(`${owner}: ${itemName.toLowerCase()} ${field.items.length + 1} added`, changed);
  };
  return (
    <FieldSet field={field} name={name}>
      {field.items.map((item, index) => {
        const title = `${itemName} ${index + 1}`;
        const remove = field.items.length > field.least && <RemoveButton field={item} name={title} />;
        if (item.kind === 'list')
          return (
            <TripleRow key={pathText(item.path)} field={item} name={title} spoken={title}>
              {remove}
            </TripleRow>
          );
        return (
          <fieldset key={pathText(item.path)} className="bench-group">
            <legend>{title}</legend>
            {remove}
            <FieldRows fields={item.kind === 'group' ? item.fields : [item]} within={`${title}, `} />
          </fieldset>
        );
      })}
      <button
        ref={addButton}
        type="button"
        aria-label={`Add ${itemName.toLowerCase()} to ${spoken.toLowerCase()}`}
        onClick={grow}
      >
        Add {itemName.toLowerCase()}
      </button>
    </FieldSet>
  );
}
