import { type KeyboardEvent, useId, useState } from 'react';
import type { LengthUnit } from '../../report/figures.ts';
import { LengthError, parseLength } from '../../units/parseLength.ts';
import { keySteps } from '../bench/keySteps.ts';
import { stepped } from '../bench/stepText.ts';
import { readAngle } from '../readAngle.ts';
import { trimmed } from '../words.ts';

interface ValueInputProps {
  /** The name as shown, and as spoken where that says more. */
  name: string;
  spoken?: string;
  kind: 'length' | 'angle';
  /** In mm or degrees. */
  value: number;
  unit: LengthUnit;
  /** What is wrong with a value, in a sentence; anything goes where there is no such check. */
  complaint?(value: number): string | undefined;
  onChange(value: number): void;
}

/** Millimetres or degrees out of a text; a sentence where it is neither. */
function read(text: string, kind: ValueInputProps['kind'], unit: LengthUnit): number | string {
  if (kind === 'length') {
    try {
      return parseLength(text, { unit }).mm;
    } catch (error) {
      if (error instanceof LengthError) return error.message;
      throw error;
    }
  }
  return readAngle(text);
}

/** A length or an angle as typed: Enter or leaving takes it, Escape brings back what stood there, arrow keys step it. */
export function ValueInput({ name, spoken, kind, value, unit, complaint, onChange }: ValueInputProps) {
  const [draft, setDraft] = useState<string>();
  const [problem, setProblem] = useState<string>();
  const id = useId();
  const stands =
    kind === 'length' ? trimmed(value, unit, unit === 'mm' ? 2 : 4) : `${trimmed(value, 'mm', 2)}°`;
  const text = draft ?? stands;
  const take = (typed: string) => {
    const typedValue = read(typed, kind, unit);
    const found = typeof typedValue === 'string' ? typedValue : (complaint?.(typedValue) ?? typedValue);
    if (typeof found === 'string') {
      // What cannot be stays as it was typed.
      setDraft(typed);
      setProblem(found);
      return;
    }
    setDraft(undefined);
    setProblem(undefined);
    onChange(found);
  };
  const onKey = (event: KeyboardEvent<HTMLInputElement>) => {
    if (event.key === 'Enter') {
      if (draft !== undefined) take(draft);
      event.currentTarget.select();
    }
    if (event.key === 'Escape' && draft !== undefined) {
      event.stopPropagation();
      setDraft(undefined);
      setProblem(undefined);
    }
    const steps = keySteps(event);
    if (steps === 0) return;
    const next = stepped(kind, text, steps, unit);
    if (next === undefined) return;
    event.preventDefault();
    take(next);
  };
  return (
    <span className="value-input">
      <label htmlFor={id}>{name}</label>
      <input
        id={id}
        type="text"
        value={text}
        aria-label={spoken}
        aria-invalid={problem !== undefined}
        aria-describedby={problem === undefined ? undefined : `${id}-problem`}
        autoComplete="off"
        spellCheck={false}
        onChange={(event) => setDraft(event.target.value)}
        onKeyDown={onKey}
        onBlur={() => {
          if (draft !== undefined) take(draft);
        }}
      />
      {kind === 'length' && <span className="soft">{unit}</span>}
      {problem !== undefined && (
        <span id={`${id}-problem`} className="value-problem" role="alert">
          {problem}
        </span>
      )}
    </span>
  );
}
