import { useEffect, useId } from 'react';
import { pathFrom } from '../../../design/path.ts';
import { counted } from '../../../report/figures.ts';
import {
  type MeasuringErrorInWords,
  NO_PLUS_MINUS,
  type PairErrorInWords,
} from '../../../report/measuringError/measuringErrorInWords.ts';
import { SheetFrame } from '../../kit/SheetFrame.tsx';
import { StudyButtons } from '../../kit/StudyButtons.tsx';
import { CancelledStudy, StudyProgress } from '../../kit/StudyProgress.tsx';
import { pairLabel } from '../../kit/words.ts';
import { currentSource, useDocument } from '../../state/documentStore.ts';
import type { OpenCorner } from '../../state/engine.ts';
import { valueName } from '../../state/fieldText.ts';
import { useView } from '../../state/viewStore.ts';
import { foundFor, isStudied, studiedPair, useMeasuringError } from './measuringErrorStore.ts';
import { cancelMeasuringError, keepWorker, startMeasuringError } from './runMeasuringError.ts';

const ALL_PAIRS = 'All pairs';

/** The ids of a pair's solids, and its name; undefined without a pair. */
function pairOf({ solids, pairs }: OpenCorner, pair: number | undefined) {
  const selected = pairs[pair ?? -1];
  if (selected === undefined) return undefined;
  return {
    between: [solids[selected.a].id, solids[selected.b].id] as const,
    label: pairLabel(solids, selected),
  };
}

/** What moves each clearance, and how much of it the ± of the measured values can take. */
export default function MeasuringErrorSheet({ corner, onClose }: { corner: OpenCorner; onClose(): void }) {
  const pair = useView((view) => view.pair);
  const { state } = useMeasuringError();
  const { hash } = corner.design;
  const isRunning = state.kind === 'running';
  const isStale = state.kind !== 'none' && state.designHash !== hash;

  useEffect(() => {
    if (isRunning && isStale) cancelMeasuringError();
  }, [isRunning, isStale]);

  useEffect(keepWorker, []);
  // The selected pair is studied at once, unless a finished or running study holds it.
  useEffect(() => {
    const selected = pairOf(corner, pair);
    if (selected === undefined) return;
    const { state: now } = useMeasuringError.getState();
    const isRunningFor = (label: string) => now.kind === 'running' && now.label === label;
    if (isStudied(now, corner.design.hash, [selected.between])) return;
    if (!isRunningFor(ALL_PAIRS) && !isRunningFor(selected.label))
      startMeasuringError(corner, [selected.between], selected.label);
  }, [corner, pair]);

  const studyPair = () => {
    const selected = pairOf(corner, pair);
    if (selected !== undefined) startMeasuringError(corner, [selected.between], selected.label);
  };
  return (
    <SheetFrame title="Measuring error" onClose={onClose}>
      <p className="bench-kind">
        Shows which values move a clearance, and how much of it the ± of your measurements can take.
      </p>
      <StudyButtons isRunning={isRunning} onCancel={cancelMeasuringError}>
        <button type="button" disabled={pair === undefined} onClick={studyPair}>
          Study this pair
        </button>
        <button type="button" onClick={() => startMeasuringError(corner, undefined, ALL_PAIRS)}>
          Study all pairs
        </button>
      </StudyButtons>
      {isStale ? (
        <p className="bench-kind" role="status">
          The corner has changed since {state.label} was studied.
        </p>
      ) : (
        <Result corner={corner} />
      )}
    </SheetFrame>
  );
}

function Result({ corner }: { corner: OpenCorner }) {
  const { state } = useMeasuringError();
  const unit = useView((view) => view.unit);
  const pair = useView((view) => view.pair);
  if (state.kind === 'none') return null;
  if (state.kind === 'failed')
    return (
      <p className="bench-problem" role="alert">
        {state.label} could not be studied: {state.why}
      </p>
    );
  if (state.kind === 'cancelled') return <CancelledStudy />;
  if (state.kind === 'running')
    return <StudyProgress done={state.done} total={state.total} what={state.what ?? ''} />;
  const study = foundFor(state, corner.design.hash)?.[unit];
  if (study === undefined) return null;
  const selected = pairOf(corner, pair);
  const studied = selected && studiedPair(study.pairs, ...selected.between);
  return (
    <div data-testid="measuring-error">
      <p role="status">{study.among === undefined ? wholeInWords(study) : `${state.label} is studied.`}</p>
      {!study.hasPlusMinus && <p className="bench-kind">{NO_PLUS_MINUS}</p>}
      {studied === undefined ? (
        <p className="bench-kind">
          {pair === undefined
            ? 'Choose a pair in the list of pairs.'
            : 'The selected pair is not studied, or far from touching.'}
        </p>
      ) : (
        <StudiedPair pair={studied} />
      )}
      <Again again={study.again} />
      {study.others.map((text) => (
        <p key={text} className="bench-kind">
          {text}
        </p>
      ))}
    </div>
  );
}

const wholeInWords = ({ pairs, withinCount }: MeasuringErrorInWords): string =>
  `${counted(pairs.length, 'pair')} studied; ${withinCount === 0 ? 'no clear pair is' : counted(withinCount, 'clear pair is', 'clear pairs are')} within measuring error.`;

function StudiedPair({ pair }: { pair: PairErrorInWords }) {
  const unit = useView((view) => view.unit);
  const heading = useId();
  const figures = [
    ['Clearance and mesh error', pair.clearance],
    ['Margin at least', pair.margin],
    ['Measuring error, worst case', pair.worstCase],
    ['Measuring error, root sum square', pair.rootSumSquare],
  ];
  return (
    <section className="varied" aria-labelledby={heading}>
      <h3 id={heading}>
        {pair.label}: {pair.state}
      </h3>
      {figures.map(([name, text]) => (
        <div key={name} className="figure-row">
          <span>
            {name}, {unit}
          </span>
          <span>{text}</span>
        </div>
      ))}
      {pair.verified.map((text) => (
        <p key={text} className="bench-kind">
          {text}
        </p>
      ))}
      {pair.taking.length > 0 && (
        <ValueTable
          title="The ± of these values takes most"
          column={`Takes, ${unit}`}
          rows={pair.taking.map(({ path, inFile, plusMinus, takes, end }) => ({
            path,
            note: `${inFile} ±${plusMinus}`,
            figure: takes,
            figureNote: end === '' ? '' : `if ${end}`,
          }))}
        />
      )}
      {pair.others.map((text) => (
        <p key={text} className="bench-kind">
          {text}
        </p>
      ))}
      <ValueTable
        title="What moves it: change of the clearance per unit of a value"
        column="Change"
        rows={pair.effects.map(({ path, inFile, unit: per, change }) => ({
          path,
          note: inFile,
          figure: change,
          figureNote: per,
        }))}
      />
    </section>
  );
}

function Again({ again }: Pick<MeasuringErrorInWords, 'again'>) {
  const unit = useView((view) => view.unit);
  if (again === undefined) return null;
  return (
    <section className="varied">
      <ValueTable
        title={again.title}
        column={`Adds, ${unit}`}
        rows={again.values.map(({ path, inFile, plusMinus, adds, pairs }) => ({
          path,
          note: `${inFile} ±${plusMinus}`,
          figure: adds,
          figureNote: `${pairs} ${pairs === '1' ? 'pair' : 'pairs'}`,
        }))}
      />
    </section>
  );
}

interface ValueTableProps {
  title: string;
  /** Title of the figures. */
  column: string;
  rows: readonly { path: string; note: string; figure: string; figureNote: string }[];
}

/** Values of the file with a figure for each; a note stands under each of the two. */
function ValueTable({ title, column, rows }: ValueTableProps) {
  const source = useDocument(currentSource);
  return (
    <table className="value-figures">
      <caption>{title}</caption>
      <thead>
        <tr>
          <th scope="col">Value</th>
          <th scope="col">{column}</th>
        </tr>
      </thead>
      <tbody>
        {rows.map(({ path, note, figure, figureNote }) => (
          <tr key={path}>
            <th scope="row">
              {valueName(source, pathFrom(path) ?? [])}
              <p>{note}</p>
            </th>
            <td>
              {figure}
              <p>{figureNote}</p>
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
