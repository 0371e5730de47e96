import { type FormEvent, useEffect, useId, useRef, useState } from 'react';
import { figuresIn, type LengthUnit } from '../../../report/figures.ts';
import {
  type GapRow,
  gapRows,
  gapsInWords,
  othersInWords,
  SUSPECTS_MEAN,
  suspectRows,
} from '../../../report/mockup/mockupRows.ts';
import { steerInWords, travelInWords } from '../../../report/pose.ts';
import type { ComparedGap, MockupStudy } from '../../../studies/mockup/mockup.ts';
import { SheetFrame } from '../../kit/SheetFrame.tsx';
import { StudyProgress } from '../../kit/StudyProgress.tsx';
import { TypedRow } from '../../kit/TypedField.tsx';
import { pairLabel } from '../../kit/words.ts';
import { currentSource, useDocument } from '../../state/documentStore.ts';
import type { OpenCorner } from '../../state/engine.ts';
import { problemSentence, unitInWords } from '../../state/fieldText.ts';
import { usePose } from '../../state/poseStore.ts';
import { useSession } from '../../state/session.ts';
import { useFileUnit } from '../../state/useFileUnit.ts';
import { useView } from '../../state/viewStore.ts';
import { compareMockup } from '../../workers/mockup/compareMockup.ts';
import { gapProblem, withGap, withoutGap } from './recordedGap.ts';

/** The mock-up: records gaps measured on the metal, beside the computed ones at the same pose. */
export default function MockupSheet({ corner, onClose }: { corner: OpenCorner; onClose(): void }) {
  return (
    <SheetFrame title="Mock-up" onClose={onClose}>
      <p className="bench-kind">
        Gaps measured on the mocked-up assembly, without springs, beside the computed ones. They change no
        value of the corner.
      </p>
      <Recorder corner={corner} />
      {(corner.design.corner.mockup ?? []).length > 0 && <Compared corner={corner} />}
    </SheetFrame>
  );
}

/** Records the gap of the selected pair at the pose in hand. */
function Recorder({ corner }: { corner: OpenCorner }) {
  const session = useSession();
  const unit = useView((view) => view.unit);
  const fileUnit = useFileUnit();
  const pair = useView((view) => view.pair);
  const travelMm = usePose((pose) => pose.travelMm);
  const steer = usePose((pose) => pose.steer);
  const [gap, setGap] = useState('');
  const [by, setBy] = useState('');
  const [problem, setProblem] = useState<string>();
  const form = useRef<HTMLFormElement>(null);
  // Opened to type a gap.
  useEffect(() => form.current?.querySelector('input')?.focus(), []);
  if (pair === undefined)
    return (
      <p className="bench-problem">
        Choose a pair in the list of pairs, and move to the pose of the mock-up.
      </p>
    );
  const { a, b } = corner.pairs[pair];
  const label = pairLabel(corner.solids, corner.pairs[pair]);
  const figures = figuresIn(unit);
  const submit = (event: FormEvent) => {
    event.preventDefault();
    const found = gapProblem(gap, fileUnit);
    setProblem(found);
    if (found !== undefined) return;
    const typed = {
      between: [corner.solids[a].id, corner.solids[b].id] as const,
      travelMm,
      steer,
      gap,
      by,
      on: new Date().toISOString().slice(0, 10),
    };
    const source = currentSource(useDocument.getState());
    void session.change(
      `Gap recorded: ${label}`,
      withGap(source, corner.design.corner, typed, fileUnit ?? unit),
    );
    setGap('');
  };
  return (
    <form ref={form} className="vary-form" onSubmit={submit} noValidate>
      <p className="bench-kind" data-testid="gap-of">
        {label}, at {travelInWords(travelMm, figures)}, {steerInWords(corner.design.corner, steer, figures)}.{' '}
        {unitInWords(corner.design.corner.unit)}
      </p>
      <TypedRow
        label="Measured gap"
        kind="length"
        text={gap}
        unit={fileUnit}
        placeholder="1/8 ±1/32"
        problem={problem && problemSentence('Measured gap', problem)}
        isRequired
        onType={(text) => {
          setGap(text);
          setProblem(undefined);
        }}
      />
      <TypedRow label="Measured by" text={by} problem={undefined} onType={setBy} />
      <div className="vary-buttons">
        <button type="submit">Record gap</button>
      </div>
    </form>
  );
}

type State =
  | { kind: 'running'; done: number; total: number }
  | { kind: 'failed'; why: string }
  | { kind: 'done'; study: MockupStudy };

/** The recorded gaps, compared in a worker each time the corner changes. */
function Compared({ corner }: { corner: OpenCorner }) {
  const [state, setState] = useState<State>({ kind: 'running', done: 0, total: 0 });
  useEffect(() => {
    setState({ kind: 'running', done: 0, total: 0 });
    const call = compareMockup(corner, (done, total) => setState({ kind: 'running', done, total }));
    call.result.then(
      (study) => setState({ kind: 'done', study }),
      ({ message }: Error) => setState({ kind: 'failed', why: message }),
    );
    return () => call.cancel();
  }, [corner]);
  if (state.kind === 'failed')
    return (
      <p className="bench-problem" role="alert">
        The gaps could not be compared: {state.why}
      </p>
    );
  if (state.kind === 'running')
    return <StudyProgress done={state.done} total={state.total} what="values changed" />;
  return <ComparedGaps study={state.study} />;
}

function ComparedGaps({ study }: { study: MockupStudy }) {
  const unit = useView((view) => view.unit);
  const heading = useId();
  const figures = figuresIn(unit);
  const suspects = suspectRows(study, figures);
  return (
    <section aria-labelledby={heading} data-testid="mockup">
      <h3 id={heading}>Recorded gaps</h3>
      <p role="status">{gapsInWords(study)}</p>
      {gapRows(study, figures).map((row, index) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: a gap has no id; the file identifies it by its index
        <Gap key={index} row={row} gap={study.gaps[index]} unit={figures.unit} />
      ))}
      {suspects.length > 0 && (
        <>
          <p className="bench-kind">{SUSPECTS_MEAN}</p>
          <ul className="bench-kind">
            {suspects.map(([name, value, change]) => (
              <li key={name}>
                {name} {value}: {change}
              </li>
            ))}
          </ul>
        </>
      )}
      {othersInWords(study, figures).map((text) => (
        <p key={text} className="bench-kind">
          {text}
        </p>
      ))}
    </section>
  );
}

function Gap({ row, gap, unit }: { row: GapRow; gap: ComparedGap; unit: LengthUnit }) {
  const session = useSession();
  const { index, pose, moves } = gap;
  const remove = () =>
    void session.change(`Gap removed: ${row.pair}`, withoutGap(currentSource(useDocument.getState()), index));
  const figures = [
    ['Computed', row.predicted],
    ['Measured', row.measured],
    ['Difference', row.difference],
    ['Measuring error', row.measuringError],
  ].filter(([, text]) => text !== '');
  return (
    <fieldset className="bench-group">
      <legend>
        {row.pair}: {row.result}
      </legend>
      <p className="bench-kind">{[row.pose, row.who, row.note].filter((text) => text !== '').join('. ')}</p>
      {figures.map(([name, text]) => (
        <div key={name} className="bench-row">
          <span>
            {name}, {unit}
          </span>
          <span>{text}</span>
        </div>
      ))}
      <div className="vary-buttons">
        {moves && (
          <button type="button" onClick={() => session.moveTo(pose.travelMm, pose.steer)}>
            Go to this pose
          </button>
        )}
        <button type="button" className="quiet" aria-label={`Remove gap ${index + 1}`} onClick={remove}>
          Remove
        </button>
      </div>
    </fieldset>
  );
}
