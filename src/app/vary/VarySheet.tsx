import { type FormEvent, useEffect, useId, useRef, useState } from 'react';
import { unitInWords } from '../bench/fieldText.ts';
import { SheetFrame } from '../bench/SheetFrame.tsx';
import type { OpenCorner } from '../engine.ts';
import { useView } from '../stores/viewStore.ts';
import { axisAsked, NOTHING_TYPED, type TypedKey, type TypedProblems } from './asked.ts';
import { ListField } from './ListField.tsx';
import { isList, type Offered, offeredOf } from './offered.ts';
import { RangeField } from './RangeField.tsx';
import { cancelStudy, startStudy } from './runStudy.ts';
import { VariedFound } from './VariedFound.tsx';
import { useVary } from './varyStore.ts';

/** The study of what will fit: a dimension over a range, or tyres or wheels of a list, each tried on the corner. */
export default function VarySheet({ corner, onClose }: { corner: OpenCorner; onClose(): void }) {
  const unit = useView((view) => view.unit);
  const offered = offeredOf(corner, unit);
  return (
    <SheetFrame title="What will fit" wide onClose={onClose}>
      <p className="bench-kind">
        The corner is built with each value and measured over all travel and steering. The file stays as it
        is.
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

function Study({ corner, offered }: { corner: OpenCorner; offered: readonly Offered[] }) {
  const { name, typed, state } = useVary();
  const [problems, setProblems] = useState<TypedProblems>({});
  const choice = useId();
  const tryButton = useRef<HTMLButtonElement>(null);
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
    const asked = axisAsked(corner.design, chosen.name, texts);
    setProblems('problems' in asked ? asked.problems : {});
    if ('axis' in asked) startStudy(corner, chosen, texts);
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
          <ListField
            list={chosen.name}
            text={texts.list}
            problem={problems.list}
            onChange={(text) => type('list', text)}
          />
        ) : (
          <>
            <p className="bench-kind">
              {chosen.now === '' ? '' : `Now ${chosen.now}. `}
              {chosen.kind === 'length' ? unitInWords(parsed.unit) : ''}
            </p>
            {RANGE.map(([key, label]) => (
              <RangeField
                key={key}
                label={label}
                kind={chosen.kind ?? 'number'}
                text={texts[key]}
                unit={parsed.unit}
                problem={problems[key]}
                onChange={(text) => type(key, text)}
              />
            ))}
          </>
        )}
        <div className="vary-buttons">
          <button ref={tryButton} type="submit">
            Try them
          </button>
          {running && (
            <button
              type="button"
              onClick={() => {
                cancelStudy();
                // Its own button goes away under the focus.
                tryButton.current?.focus();
              }}
            >
              Cancel
            </button>
          )}
        </div>
      </form>
      <VariedFound state={state} isStale={isStale} />
    </>
  );
}
