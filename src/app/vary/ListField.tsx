import { type KeyboardEvent, useId } from 'react';
import type { ListName } from './offered.ts';

const ROWS = 4;
const FORMS: Record<ListName, string> = {
  tyres: 'One on each line, such as 37x12.5R17LT or 205/50R15.',
  wheels: 'One on each line, diameter x width x backspacing, such as 17x9x5 1/2.',
};

interface ListFieldProps {
  list: ListName;
  text: string;
  problem: string | undefined;
  onChange(text: string): void;
}

/** A list, one on each line: Enter begins a new one, Ctrl or Cmd and Enter tries them. */
export function ListField({ list, text, problem, onChange }: ListFieldProps) {
  const id = useId();
  const onKey = (event: KeyboardEvent<HTMLTextAreaElement>) => {
    if (event.key !== 'Enter' || !(event.ctrlKey || event.metaKey)) return;
    event.preventDefault();
    event.currentTarget.form?.requestSubmit();
  };
  return (
    <div className="bench-row">
      <label htmlFor={id}>{list === 'tyres' ? 'Tyres' : 'Wheels'}</label>
      <textarea
        id={id}
        rows={ROWS}
        value={text}
        aria-invalid={problem !== undefined}
        aria-describedby={problem === undefined ? `${id}-form` : `${id}-form ${id}-problem`}
        aria-required="true"
        autoComplete="off"
        spellCheck={false}
        onChange={(event) => onChange(event.target.value)}
        onKeyDown={onKey}
      />
      <p id={`${id}-form`} className="bench-kind vary-wide">
        {FORMS[list]}
      </p>
      {problem !== undefined && (
        <p id={`${id}-problem`} className="bench-problem" role="alert">
          {problem}
        </p>
      )}
    </div>
  );
}
