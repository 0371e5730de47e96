import { type ComponentType, type ReactNode, useEffect, useRef } from 'react';
import { withAssumed } from '../../../design/assumed.ts';
import { withValue } from '../../../design/edit.ts';
import type { Field, ListField, ValueField } from '../../../design/fields.ts';
import { pathText, valueAt } from '../../../design/path.ts';
import { ConfirmButton } from '../../kit/ConfirmButton.tsx';
import { currentSource, useDocument } from '../../state/documentStore.ts';
import { AXIS_NAMES, assumedText, shownText } from '../../state/fieldText.ts';
import { useSession } from '../../state/session.ts';
import { nextItem } from '../../state/startingParts.ts';
import { useView } from '../../state/viewStore.ts';
import { FieldSet, RemoveButton } from './FieldSet.tsx';
import { useSheet } from './sheetContext.ts';
import { useConfirmGuess } from './useConfirmGuess.ts';
import { useGuessed } from './useGuessed.ts';
import { useProblem } from './useProblem.ts';
import { ValueRow } from './ValueRow.tsx';

export interface FieldRowsProps {
  fields: readonly Field[];
  /** Name of the group of the fields, with a comma and a space; empty at the top of a sheet. */
  within?: string;
}

interface ListRowsProps {
  field: ListField;
  name: string;
  spoken: string;
  /** Rows of the fields of an item. */
  Rows: ComponentType<FieldRowsProps>;
}

/** Names of list items; default: the name of the list. */
const ITEM_NAMES: Record<string, string> = { outline: 'Corner', innerBarrel: 'Station' };

/** A point or a direction in one row; the items of any other list below each other. */
export function ListRows(props: ListRowsProps) {
  const { Rows: _, ...triple } = props;
  return props.field.length === 3 ? <TripleRow {...triple} /> : <GrowingRows {...props} />;
}

function TripleRow({
  field,
  name,
  spoken,
  children,
}: Omit<ListRowsProps, 'Rows'> & { children?: ReactNode }) {
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
    const source = withValue(currentSource(useDocument.getState()), field.path, fallbacks);
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
            key={AXIS_NAMES[axis]}
            field={value}
            name={AXIS_NAMES[axis]}
            spoken={`${spoken}, ${AXIS_NAMES[axis]}`}
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

function GrowingRows({ field, name, spoken, Rows }: ListRowsProps) {
  const session = useSession();
  const { corner, part, owner } = useSheet();
  const itemName = ITEM_NAMES[field.key] ?? name;
  const addButton = useRef<HTMLButtonElement>(null);
  const count = useRef(field.items.length);
  useEffect(() => {
    // The new item is the element before the button.
    if (field.items.length > count.current)
      for (const shown of [addButton.current?.previousElementSibling, addButton.current])
        shown?.scrollIntoView({ block: 'nearest' });
    count.current = field.items.length;
  }, [field.items.length]);
  const grow = () => {
    // In the valid corner every length is in mm.
    const parsed = valueAt(corner?.design.corner, ['parts', part ?? -1, field.key]);
    const next = nextItem(Array.isArray(parsed) ? parsed : []);
    const source = currentSource(useDocument.getState());
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
            <Rows fields={item.kind === 'group' ? item.fields : [item]} within={`${title}, `} />
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
