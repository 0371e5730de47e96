import { useId } from 'react';
import type { Side } from '../../design/side.ts';
import type { LengthUnit } from '../../report/figures.ts';
import { type Answers, withUnitOf } from './answers.ts';

interface AboutProps {
  answers: Answers;
  onChange(changed: Partial<Answers>): void;
}

/** Name, side and unit of a new corner. */
export function About({ answers, onChange }: AboutProps) {
  const id = useId();
  return (
    <fieldset className="bench-group">
      <legend>The corner</legend>
      <div className="bench-row">
        <label htmlFor={`${id}-name`}>Name</label>
        <input
          id={`${id}-name`}
          type="text"
          value={answers.name}
          placeholder={`New corner, front ${answers.side}`}
          autoComplete="off"
          spellCheck={false}
          onChange={(event) => onChange({ name: event.target.value })}
        />
      </div>
      <div
        className="bench-row"
        title="Coordinates are those of a left corner; a right one is shown mirrored."
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
        title="Of every length that is typed without one. Changing it writes the unit of before to what is typed already."
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
