import { type KeyboardEvent, useId } from 'react';
import type { FieldKind } from '../../design/fields.ts';
import type { LengthUnit } from '../../report/figures.ts';
import { keySteps } from './keySteps.ts';
import { stepText } from './stepText.ts';

export interface TypedFieldProps {
  id: string;
  /** The shown text. */
  text: string;
  onType(text: string): void;
  /** Enter, or Ctrl or Cmd with Enter in a field of several lines. If left out, Enter submits the form. */
  onEnter?(field: HTMLElement): void;
  /** Escape; if left out, Escape closes what the field is in. */
  onRevert?(): void;
  /** The text after arrow keys; if left out, it counts as typed. */
  onStep?(text: string): void;
  onFocus?(): void;
  onBlur?(): void;
  /** Kind of value; default: text, which has no steps. */
  kind?: FieldKind;
  /** Unit of a length typed without one. */
  unit?: LengthUnit;
  /** The value used while the field is empty, from which the arrow keys step. */
  fallback?: string;
  placeholder?: string;
  name?: string;
  /** Label for screen readers, if there is none on screen or it is longer. */
  spoken?: string;
  /** Ids of help and problem, separated by spaces. */
  describedBy?: string;
  isWrong?: boolean;
  isRequired?: boolean;
  isUncommitted?: boolean;
  /** Number of lines of a field of several lines. */
  rows?: number;
}

/** A field for a text or value as typed. Arrow keys step a length, an angle or a count. */
export function TypedField(props: TypedFieldProps) {
  const {
    text,
    kind = 'text',
    unit,
    fallback = '',
    rows,
    onType,
    onEnter,
    onRevert,
    onStep = onType,
  } = props;
  const onKeyDown = (event: KeyboardEvent<HTMLInputElement | HTMLTextAreaElement>) => {
    const isLines = rows !== undefined;
    if (event.key === 'Enter' && onEnter !== undefined && (!isLines || event.ctrlKey || event.metaKey)) {
      if (isLines) event.preventDefault();
      else event.currentTarget.select();
      onEnter(event.currentTarget);
    }
    if (event.key === 'Escape' && onRevert !== undefined) {
      event.stopPropagation();
      onRevert();
    }
    const steps = isLines ? 0 : keySteps(event);
    const next = steps === 0 ? undefined : stepText(kind, text || fallback, steps, unit);
    if (next === undefined) return;
    event.preventDefault();
    onStep(next);
  };
  const shared = {
    id: props.id,
    name: props.name,
    value: text,
    placeholder: props.placeholder,
    'aria-label': props.spoken,
    'aria-describedby': props.describedBy || undefined,
    'aria-invalid': props.isWrong === true,
    'aria-required': props.isRequired,
    'data-uncommitted': props.isUncommitted,
    autoComplete: 'off',
    spellCheck: false,
    onChange: ({ target }: { target: { value: string } }) => onType(target.value),
    onKeyDown,
    onFocus: props.onFocus,
    onBlur: props.onBlur,
  };
  return rows === undefined ? <input type="text" {...shared} /> : <textarea rows={rows} {...shared} />;
}

interface TypedRowProps extends Omit<TypedFieldProps, 'id' | 'describedBy' | 'isWrong'> {
  label: string;
  /** Text beside the field for those who cannot see the title of the row. */
  help?: string;
  /** Title of the row. */
  title?: string;
  /** Text below the field, on screen. */
  note?: string;
  problem: string | undefined;
  isAssumed?: boolean;
}

/** A row of a sheet: label, field and problem. */
export function TypedRow({ label, help, title, note, problem, isAssumed, ...field }: TypedRowProps) {
  const id = useId();
  const describedBy = [help && `${id}-help`, note && `${id}-note`, problem && `${id}-problem`];
  return (
    <div className="bench-row" data-assumed={isAssumed} title={title}>
      <label htmlFor={id}>{label}</label>
      <TypedField
        {...field}
        id={id}
        describedBy={describedBy.filter(Boolean).join(' ')}
        isWrong={problem !== undefined}
      />
      {help !== undefined && (
        <span id={`${id}-help`} className="unseen">
          {help}
        </span>
      )}
      {note !== undefined && (
        <p id={`${id}-note`} className="bench-kind vary-wide">
          {note}
        </p>
      )}
      {problem !== undefined && (
        <p id={`${id}-problem`} className="bench-problem" role="alert">
          {problem}
        </p>
      )}
    </div>
  );
}
