import { useId } from 'react';
import type { Side } from '../../../design/side.ts';
import type { LengthUnit } from '../../../report/figures.ts';
import { TypedRow } from '../../kit/TypedField.tsx';
import { type Answers, type SomeAnswers, withUnitOf } from './answers.ts';

interface AboutProps {
  answers: Answers;
  onChange(changed: SomeAnswers): void;
}

/** Name, side and unit of a new corner. */
export function About({ answers, onChange }: AboutProps) {
  const id = useId();
  return (
    <fieldset className="bench-group">
      <legend>The corner</legend>
      <TypedRow
        label="Name"
        text={answers.name}
        placeholder={`New corner, front ${answers.side}`}
        problem={undefined}
        onType={(name) => onChange({ name })}
      />
      <div
        className="bench-row"
        title="Coordinates are those of a left corner. A right corner is shown mirrored."
      >
        <label htmlFor={`${id}-side`}>Side</label>
        <select
          id={`${id}-side`}
          value={answers.side}
          onChange={(event) => onChange({ side: event.target.value as Side })}
        >
          <option value="left">left</option>
          <option value="right">right</option>
        </select>
      </div>
      <div
        className="bench-row"
        title="Unit of lengths typed without one. If you change it, the old unit is written to what you have typed."
      >
        <label htmlFor={`${id}-unit`}>Unit of the file</label>
        <select
          id={`${id}-unit`}
          value={answers.unit}
          onChange={(event) => onChange(withUnitOf(answers, event.target.value as LengthUnit))}
        >
          <option value="in">inches</option>
          <option value="mm">mm</option>
        </select>
      </div>
    </fieldset>
  );
}
