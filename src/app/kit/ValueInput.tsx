import { useId } from 'react';
import type { LengthUnit } from '../../report/figures.ts';
import { LengthError, parseLength } from '../../units/parseLength.ts';
import { readAngle } from './readAngle.ts';
import { TypedField } from './TypedField.tsx';
import { useDraft } from './useDraft.ts';
import { trimmed } from './words.ts';

interface ValueInputProps {
  name: string;
  /** Label for screen readers, if longer than `name`. */
  spoken?: string;
  kind: 'length' | 'angle';
  /** In mm or degrees. */
  value: number;
  unit: LengthUnit;
  /** Returns an error message for an invalid value. */
  validate?(value: number): string | undefined;
  onChange(value: number): void;
}

/** Millimetres or degrees from a text; an error message if it cannot be read. */
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

/** Input for a length or an angle. Enter or blur accepts the text, Escape restores the value, arrow keys step it. */
export function ValueInput({ name, spoken, kind, value, unit, validate, onChange }: ValueInputProps) {
  const id = useId();
  const formatted =
    kind === 'length' ? trimmed(value, unit, unit === 'mm' ? 2 : 4) : `${trimmed(value, 'mm', 2)}°`;
  const draft = useDraft(formatted, (text) => {
    const typed = read(text, kind, unit);
    const problem = typeof typed === 'string' ? typed : validate?.(typed);
    if (problem === undefined) onChange(typed as number);
    return problem;
  });
  const { problem } = draft;
  return (
    <span className="value-input">
      <label htmlFor={id}>{name}</label>
      <TypedField
        id={id}
        text={draft.text}
        kind={kind}
        unit={unit}
        spoken={spoken}
        isWrong={problem !== undefined}
        describedBy={problem && `${id}-problem`}
        onType={draft.type}
        onStep={draft.commit}
        onEnter={() => draft.commit()}
        onRevert={draft.revert}
        onBlur={() => draft.commit()}
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
