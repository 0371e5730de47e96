import { type KeyboardEvent, useId } from 'react';
import type { LengthUnit } from '../../report/figures.ts';
import { problemSentence } from '../bench/fieldText.ts';
import { keySteps } from '../bench/keySteps.ts';
import { stepped } from '../bench/stepText.ts';
import type { Offered } from './offered.ts';

interface RangeFieldProps {
  label: string;
  kind: NonNullable<Offered['kind']>;
  text: string;
  /** Of a length typed without one. */
  unit: LengthUnit | undefined;
  problem: string | undefined;
  onChange(text: string): void;
}

/** An end or the step of a range, as typed; arrow keys step it. */
export function RangeField({ label, kind, text, unit, problem, onChange }: RangeFieldProps) {
  const id = useId();
  const onKey = (event: KeyboardEvent) => {
    const steps = keySteps(event);
    const next = steps === 0 ? undefined : stepped(kind, text, steps, unit);
    if (next === undefined) return;
    event.preventDefault();
    onChange(next);
  };
  return (
    <div className="bench-row">
      <label htmlFor={id}>{label}</label>
      <input
        id={id}
        type="text"
        value={text}
        aria-invalid={problem !== undefined}
        aria-describedby={problem === undefined ? undefined : `${id}-problem`}
        aria-required="true"
        autoComplete="off"
        spellCheck={false}
        onChange={(event) => onChange(event.target.value)}
        onKeyDown={onKey}
      />
      {problem !== undefined && (
        <p id={`${id}-problem`} className="bench-problem" role="alert">
          {problemSentence(label, problem)}
        </p>
      )}
    </div>
  );
}
