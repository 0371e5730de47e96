import { useId } from 'react';
import type { ListField, ValueField } from '../../../design/fields.ts';
import { ConfirmButton } from '../../kit/ConfirmButton.tsx';
import { assumedText, confirmedValue, problemSentence, shownText } from '../../state/fieldText.ts';
import { useView } from '../../state/viewStore.ts';
import { ChoiceInput } from './ChoiceInput.tsx';
import { TextInput } from './TextInput.tsx';
import { useConfirmGuess } from './useConfirmGuess.ts';
import { useFieldChange } from './useFieldChange.ts';
import { useGuessed } from './useGuessed.ts';
import { useProblem } from './useProblem.ts';
import { ValueSlider } from './ValueSlider.tsx';

/** Text fields with several lines. */
const OF_LINES = new Set<string | number>(['note']);
const LINES = 5;

export interface ValueProps {
  field: ValueField;
  /** The label. */
  name: string;
  /** The full name, for screen readers: "Body, outboard depth". */
  spoken: string;
  /** The list that the value is an item of. */
  list?: ListField;
}

/** One value of a sheet: its label, its input as typed, a button to confirm an assumed value, and its problem. */
export function ValueRow({ field, name, spoken, list }: ValueProps) {
  const id = useId();
  const unit = useView((view) => view.unit);
  const problem = useProblem(field.path);
  const change = useFieldChange(field, spoken, list);
  const confirmGuess = useConfirmGuess(field, spoken);
  const assumed = field.typed === undefined ? assumedText(field, unit) : '';
  // Items of a list are confirmed together with the list.
  const confirms = assumed !== '' && list === undefined;
  const guessed = useGuessed(field) && list === undefined && !confirms;
  const input = {
    id,
    field,
    spoken,
    assumed,
    invalid: problem !== undefined,
    describedBy: [
      field.description === undefined ? '' : `${id}-help`,
      problem === undefined ? '' : `${id}-problem`,
    ]
      .filter(Boolean)
      .join(' '),
    change,
  };
  return (
    <div className="bench-row" data-assumed={assumed !== ''} title={field.description}>
      <label htmlFor={id}>{name}</label>
      {field.kind === 'choice' || field.kind === 'yesNo' ? (
        <ChoiceInput {...input} />
      ) : OF_LINES.has(field.key) ? (
        <TextInput {...input} rows={LINES} />
      ) : (
        <>
          <TextInput {...input} />
          <ValueSlider
            field={field}
            spoken={spoken}
            text={field.typed === undefined ? assumed : shownText(field)}
            change={change}
          />
        </>
      )}
      {guessed && <ConfirmButton spoken={spoken} assumed={shownText(field)} guess onConfirm={confirmGuess} />}
      {confirms && (
        <ConfirmButton
          spoken={spoken}
          assumed={assumed}
          onConfirm={() => change(confirmedValue(field, unit), `${assumed}, confirmed`)}
        />
      )}
      {field.description !== undefined && (
        <span id={`${id}-help`} className="unseen">
          {field.description}
        </span>
      )}
      {problem !== undefined && (
        <p id={`${id}-problem`} className="bench-problem" role="alert">
          {problemSentence(name, problem)}
        </p>
      )}
    </div>
  );
}
