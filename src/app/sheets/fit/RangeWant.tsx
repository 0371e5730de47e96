import { useId, useState } from 'react';
import type { Arc } from '../../../studies/clocking/spans.ts';
import { TypedField } from '../../kit/TypedField.tsx';
import { trimmed } from '../../kit/words.ts';
import { readRange, type TypedEnds } from './readRange.ts';

interface RangeWantProps {
  /** The part: "Caliper". */
  of: string;
  range: Arc | undefined;
  onChange(range: Arc | undefined): void;
}

const ENDS = ['from', 'to'] as const;

const endsOf = (range: Arc | undefined): TypedEnds => ({
  from: range === undefined ? '' : `${trimmed(range.fromDeg, 'mm', 2)}°`,
  to: range === undefined ? '' : `${trimmed(range.toDeg, 'mm', 2)}°`,
});

/** Range of allowed clockings; empty for any. Enter or leaving commits both ends, arrow keys step one. */
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
  const revert = () => {
    setDraft(undefined);
    setProblem(undefined);
  };
  return (
    // biome-ignore lint/a11y/useSemanticElements: the legend of a fieldset does not follow the grid of the sheet
    <div
      className="fit-range"
      role="group"
      aria-labelledby={`${id}-name`}
      onBlur={({ currentTarget, relatedTarget }) => {
        // Moving between the two ends commits nothing.
        if (draft !== undefined && !currentTarget.contains(relatedTarget)) take(draft);
      }}
    >
      <span id={`${id}-name`} className="soft">
        {of} clocking
      </span>
      {ENDS.map((end) => (
        <TypedField
          key={end}
          id={`${id}-${end}`}
          text={typed[end]}
          kind="angle"
          placeholder={end}
          spoken={`${of} clocking, ${end}, degrees`}
          isWrong={problem !== undefined}
          describedBy={problem && `${id}-problem`}
          onType={(text) => setDraft({ ...typed, [end]: text })}
          onStep={(text) => take({ ...typed, [end]: text })}
          onEnter={() => take(typed)}
          onRevert={draft && revert}
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
