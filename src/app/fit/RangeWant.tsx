import { type KeyboardEvent, useId, useState } from 'react';
import type { Arc } from '../../studies/clocking/spans.ts';
import { keySteps } from '../bench/keySteps.ts';
import { stepped } from '../bench/stepText.ts';
import { trimmed } from '../words.ts';
import { readRange, type TypedEnds } from './readRange.ts';

interface RangeWantProps {
  /** Of what the clockings are: "Caliper". */
  of: string;
  range: Arc | undefined;
  onChange(range: Arc | undefined): void;
}

const ENDS = ['from', 'to'] as const;

const endsOf = (range: Arc | undefined): TypedEnds => ({
  from: range === undefined ? '' : `${trimmed(range.fromDeg, 'mm', 2)}°`,
  to: range === undefined ? '' : `${trimmed(range.toDeg, 'mm', 2)}°`,
});

/** The clockings that are allowed, from one to another; empty for any. Enter or leaving takes both ends, arrow keys step one. */
export function RangeWant({ of, range, onChange }: RangeWantProps) {
  const [draft, setDraft] = useState<TypedEnds>();
  const [problem, setProblem] = useState<string>();
  const id = useId();
  const typed = draft ?? endsOf(range);
  const take = (ends: TypedEnds) => {
    const found = readRange(ends);
    const isBad = typeof found === 'string';
    setDraft(isBad ? ends : undefined);
    setProblem(isBad ? found : undefined);
    if (!isBad) onChange(found);
  };
  const onKey = (end: keyof TypedEnds, event: KeyboardEvent<HTMLInputElement>) => {
    if (event.key === 'Enter') take(typed);
    if (event.key === 'Escape' && draft !== undefined) {
      event.stopPropagation();
      setDraft(undefined);
      setProblem(undefined);
    }
    const steps = keySteps(event);
    const next = steps === 0 ? undefined : stepped('angle', typed[end], steps, undefined);
    if (next === undefined) return;
    event.preventDefault();
    take({ ...typed, [end]: next });
  };
  return (
    // biome-ignore lint/a11y/useSemanticElements: the legend of a fieldset does not follow the grid of the sheet
    <div
      className="fit-range"
      role="group"
      aria-labelledby={`${id}-name`}
      onBlur={({ currentTarget, relatedTarget }) => {
        // From the one end to the other nothing is whole yet.
        if (draft !== undefined && !currentTarget.contains(relatedTarget)) take(draft);
      }}
    >
      <span id={`${id}-name`} className="soft">
        {of} clocking
      </span>
      {ENDS.map((end) => (
        <input
          key={end}
          type="text"
          value={typed[end]}
          placeholder={end === 'from' ? 'from' : 'to'}
          aria-label={`${of} clocking, ${end}, degrees`}
          aria-invalid={problem !== undefined}
          aria-describedby={problem === undefined ? undefined : `${id}-problem`}
          autoComplete="off"
          spellCheck={false}
          onChange={(event) => setDraft({ ...typed, [end]: event.target.value })}
          onKeyDown={(event) => onKey(end, event)}
        />
      ))}
      {problem !== undefined && (
        <p id={`${id}-problem`} className="bench-problem" role="alert">
          {problem}
        </p>
      )}
    </div>
  );
}
