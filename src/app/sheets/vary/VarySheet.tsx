import { type FormEvent, useEffect, useId, useState } from 'react';
import { SheetFrame } from '../../kit/SheetFrame.tsx';
import { StudyButtons } from '../../kit/StudyButtons.tsx';
import { TypedRow } from '../../kit/TypedField.tsx';
import type { OpenCorner } from '../../state/engine.ts';
import { problemSentence, unitInWords } from '../../state/fieldText.ts';
import { useView } from '../../state/viewStore.ts';
import { isList, type ListName, type Offered, offeredOf } from '../../workers/vary/offered.ts';
import { NOTHING_TYPED, type TypedKey, type TypedProblems, typedAxis } from '../../workers/vary/typedAxis.ts';
import { cancelStudy, startStudy } from './runStudy.ts';
import { VariedResult } from './VariedResult.tsx';
import { useVary } from './varyStore.ts';

/** The variants study: tries a dimension over a range, or a list of tyres or wheels, on the corner. */
export default function VarySheet({ corner, onClose }: { corner: OpenCorner; onClose(): void }) {
  const unit = useView((view) => view.unit);
  const offered = offeredOf(corner, unit);
  return (
    <SheetFrame title="Variants" wide onClose={onClose}>
      <p className="bench-kind">
        Builds the corner with each value and measures it over all travel and lock. The file does not change.
      </p>
      {offered.length === 0 ? (
        <p className="bench-problem">Add a wheel, tyre, spacer, rotor, caliper or hub to try others.</p>
      ) : (
        <Study corner={corner} offered={offered} />
      )}
    </SheetFrame>
  );
}

const RANGE = [
  ['from', 'From'],
  ['to', 'To'],
  ['step', 'Step'],
] as const;

const LIST_ROWS = 4;
const LISTS: Record<ListName, { label: string; note: string }> = {
  tyres: { label: 'Tyres', note: 'One per line, such as 37x12.5R17LT or 205/50R15.' },
  wheels: {
    label: 'Wheels',
    note: 'One per line, diameter x width x backspacing, such as 17x9x5 1/2.',
  },
};

function Study({ corner, offered }: { corner: OpenCorner; offered: readonly Offered[] }) {
  const { name, typed, state } = useVary();
  const [problems, setProblems] = useState<TypedProblems>({});
  const choice = useId();
  const chosen = offered.find((one) => one.name === name) ?? offered[0];
  const texts = typed[chosen.name] ?? NOTHING_TYPED;
  const { hash, corner: parsed } = corner.design;
  const running = state.kind === 'running';
  const isStale = state.kind !== 'none' && state.designHash !== hash;

  useEffect(() => {
    if (running && isStale) cancelStudy();
  }, [running, isStale]);

  const type = (key: TypedKey, text: string) => {
    useVary.setState({ typed: { ...typed, [chosen.name]: { ...texts, [key]: text } } });
    setProblems((before) => ({ ...before, [key]: undefined }));
  };
  const submit = (event: FormEvent) => {
    event.preventDefault();
    const parsedAxis = typedAxis(corner.design, chosen.name, texts);
    setProblems('problems' in parsedAxis ? parsedAxis.problems : {});
    if ('axis' in parsedAxis) startStudy(corner, chosen, texts);
  };
  return (
    <>
      <form className="vary-form" onSubmit={submit} noValidate>
        <div className="bench-row vary-choice">
          <label htmlFor={choice}>Vary</label>
          <select
            id={choice}
            value={chosen.name}
            onChange={(event) => {
              useVary.setState({ name: event.target.value });
              setProblems({});
            }}
          >
            {offered.map((one) => (
              <option key={one.name} value={one.name}>
                {one.label}
              </option>
            ))}
          </select>
        </div>
        {isList(chosen.name) ? (
          <TypedRow
            {...LISTS[chosen.name]}
            rows={LIST_ROWS}
            text={texts.list}
            problem={problems.list}
            isRequired
            onType={(text) => type('list', text)}
            onEnter={(field) => field.closest('form')?.requestSubmit()}
          />
        ) : (
          <>
            <p className="bench-kind">
              {chosen.now === '' ? '' : `Now ${chosen.now}. `}
              {chosen.kind === 'length' ? unitInWords(parsed.unit) : ''}
            </p>
            {RANGE.map(([key, label]) => (
              <TypedRow
                key={key}
                label={label}
                kind={chosen.kind ?? 'number'}
                text={texts[key]}
                unit={parsed.unit}
                problem={problems[key] && problemSentence(label, problems[key])}
                isRequired
                onType={(text) => type(key, text)}
              />
            ))}
          </>
        )}
        <StudyButtons isRunning={running} onCancel={cancelStudy}>
          <button type="submit">Try values</button>
        </StudyButtons>
      </form>
      <VariedResult state={state} isStale={isStale} />
    </>
  );
}
