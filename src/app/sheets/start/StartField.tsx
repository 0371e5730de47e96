import type { LengthUnit } from '../../../report/figures.ts';
import { TypedRow } from '../../kit/TypedField.tsx';
import { problemInWords, problemSentence } from '../../state/fieldText.ts';
import type { Question } from './questions.ts';

interface StartFieldProps {
  question: Question;
  text: string;
  /** The value used while the field is empty. */
  usual: string;
  unit: LengthUnit;
  problem: string | undefined;
  onChange(text: string): void;
  onFocus(): void;
  onBlur(): void;
}

/** One dimension of a new corner, as typed; arrow keys step it. */
export function StartField({ question, text, usual, problem, onChange, ...field }: StartFieldProps) {
  const { key, label, help, kind } = question;
  return (
    <TypedRow
      {...field}
      label={label}
      name={key}
      title={help}
      help={`${help} ${usual === '' ? '' : `Assumed while empty: ${usual}.`}`}
      text={text}
      kind={kind}
      fallback={usual}
      placeholder={usual}
      isAssumed={text.trim() === ''}
      problem={problem && problemSentence(label, problemInWords(problem, undefined))}
      onType={onChange}
    />
  );
}
