import { type KeyboardEvent, useId } from 'react';
import type { LengthUnit } from '../../report/figures.ts';
import { problemInWords, problemSentence } from '../bench/fieldText.ts';
import { keySteps } from '../bench/keySteps.ts';
import { stepped } from '../bench/stepText.ts';
import type { Question } from './questions.ts';

interface StartFieldProps {
  question: Question;
  text: string;
  /** The value that stands in while nothing is typed. */
  usual: string;
  unit: LengthUnit;
  problem: string | undefined;
  onChange(text: string): void;
  onFocus(): void;
  onBlur(): void;
}

/** One dimension of a new corner, as typed; arrow keys step it. */
export function StartField({
  question,
  text,
  usual,
  unit,
  problem,
  onChange,
  onFocus,
  onBlur,
}: StartFieldProps) {
  const id = useId();
  const { label, help, kind } = question;
  const onKey = (event: KeyboardEvent) => {
    const steps = keySteps(event);
    if (steps === 0) return;
    const next = stepped(kind, text || usual, steps, unit);
    if (next === undefined) return;
    event.preventDefault();
    onChange(next);
  };
  return (
    <div className="bench-row" data-assumed={text.trim() === ''} title={help}>
      <label htmlFor={id}>{label}</label>
      <input
        id={id}
        type="text"
        name={question.key}
        value={text}
        placeholder={usual}
        aria-describedby={problem === undefined ? `${id}-help` : `${id}-help ${id}-problem`}
        aria-invalid={problem !== undefined}
        autoComplete="off"
        spellCheck={false}
        onChange={(event) => onChange(event.target.value)}
        onKeyDown={onKey}
        onFocus={onFocus}
        onBlur={onBlur}
      />
      <span id={`${id}-help`} className="unseen">
        {help} {usual === '' ? '' : `Assumed while empty: ${usual}.`}
      </span>
      {problem !== undefined && (
        <p id={`${id}-problem`} className="bench-problem" role="alert">
          {problemSentence(label, problemInWords(problem, undefined))}
        </p>
      )}
    </div>
  );
}
