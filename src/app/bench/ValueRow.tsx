import { useId } from 'react';
import type { ListField, ValueField } from '../../design/fields.ts';
import { useView } from '../stores/viewStore.ts';
import { ChoiceInput } from './ChoiceInput.tsx';
import { ConfirmButton } from './ConfirmButton.tsx';
import { assumedText, confirmedValue, problemSentence, shownText } from './fieldText.ts';
import { LinesInput } from './LinesInput.tsx';
import { TextInput } from './TextInput.tsx';
import { useConfirmGuess } from './useConfirmGuess.ts';
import { useFieldChange } from './useFieldChange.ts';
import { useGuessed } from './useGuessed.ts';
import { useProblem } from './useProblem.ts';
import { ValueSlider } from './ValueSlider.tsx';

/** Texts that may run over several lines. */
const OF_LINES = new Set<string | number>(['note']);

export interface ValueProps {
  field: ValueField;
  /** What stands before the input. */
  name: string;
  /** The same in full, for who does not see where the input stands: "Body, outboard depth". */
  spoken: string;
  /** The list that the value is an item of. */
  list?: ListField;
}

/** One value of a sheet: its name, its input as typed, whether it is assumed, and what is wrong with it. */
export function ValueRow({ field, name, spoken, list }: ValueProps) {
  const id = useId();
  const unit = useView((view) => view.unit);
  const problem = useProblem(field.path);
  const change = useFieldChange(field, spoken, list);
  const confirmGuess = useConfirmGuess(field, spoken);
  const assumed = field.typed === undefined ? assumedText(field, unit) : '';
  // Items of a list are confirmed with it.
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
        <LinesInput {...input} />
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
