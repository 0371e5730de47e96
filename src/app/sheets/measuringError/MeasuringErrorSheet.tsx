import { useEffect, useId } from 'react';
import { pathFrom } from '../../../design/path.ts';
import type { Findings } from '../../../findings/findings.ts';
import { counted } from '../../../report/figures.ts';
import {
  type MeasuringErrorInWords,
  NO_PLUS_MINUS,
  type PairErrorInWords,
} from '../../../report/measuringError/measuringErrorInWords.ts';
import type { SolidIds } from '../../../studies/sensitivity/sensitivity.ts';
import { SheetFrame } from '../../kit/SheetFrame.tsx';
import { StudyButtons } from '../../kit/StudyButtons.tsx';
import { CancelledStudy, StudyProgress } from '../../kit/StudyProgress.tsx';
import { pairLabel } from '../../kit/words.ts';
import { useCorner } from '../../state/cornerStore.ts';
import { currentSource, useDocument } from '../../state/documentStore.ts';
import type { OpenCorner } from '../../state/engine.ts';
import { valueName } from '../../state/fieldText.ts';
import { useView } from '../../state/viewStore.ts';
import type { StudyState } from '../../workers/studyRun.ts';
import { foundFor, foundForPair, studiedPair, useMeasuringError } from './measuringErrorStore.ts';
import {
  cancelMeasuringError,
  endOthers,
  keepWorker,
  startMeasuringError,
  studyOthers,
} from './runMeasuringError.ts';

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

/** The ids of the pairs whose clearance is known, the least margin first. */
const knownPairs = ({ solids, pairs }: OpenCorner, findings: Findings): SolidIds[] =>
  findings.pairs
    .filter(({ state, worst }) => state !== 'far' && state !== 'unknown' && worst !== undefined)
    .map(({ pair }) => [solids[pairs[pair].a].id, solids[pairs[pair].b].id]);

/** What moves each clearance, and how much of it the ± of the measured values can take. */
export default function MeasuringErrorSheet({ corner, onClose }: { corner: OpenCorner; onClose(): void }) {
  const pair = useView((view) => view.pair);
  const findings = useCorner(({ swept, progress }) =>
    progress?.kind === 'done' ? swept?.findings : undefined,
  );
  const { state, others } = useMeasuringError();
  const { hash } = corner.design;
  const isRunning = state.kind === 'running' || others.kind === 'running';
  const isStale = state.kind !== 'none' && state.designHash !== hash;
  const isStaleRun = isStale && state.kind === 'running';

  useEffect(() => {
    if (isStaleRun) cancelMeasuringError();
  }, [isStaleRun]);

  useEffect(keepWorker, []);
  // The selected pair is studied at once, unless a finished or running study holds it.
  useEffect(() => {
    const selected = pairOf(corner, pair);
    if (selected === undefined) return;
    const studies = useMeasuringError.getState();
    const { state: now } = studies;
    const isRunningFor = (label: string) => now.kind === 'running' && now.label === label;
    if (foundForPair(studies, corner.design.hash, selected.between) !== undefined) return;
    if (!isRunningFor(ALL_PAIRS) && !isRunningFor(selected.label))
      startMeasuringError(corner, [selected.between], selected.label);
  }, [corner, pair]);
  // Then the other pairs, so that they are studied when they are selected.
  const isNew = others.kind === 'none' || (others.kind !== 'running' && others.designHash !== hash);
  const isFree = isNew && !isStale && (state.kind === 'none' || state.kind === 'done');
  useEffect(() => {
    if (findings === undefined) return endOthers();
    // The effect before this one may have started a study since.
    const isRunningNow = useMeasuringError.getState().state.kind === 'running';
    if (isFree && !isRunningNow) studyOthers(corner, knownPairs(corner, findings));
  }, [corner, findings, isFree]);

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
  const studies = useMeasuringError();
  const { state, others } = studies;
  const unit = useView((view) => view.unit);
  const pair = useView((view) => view.pair);
  const selected = pairOf(corner, pair);
  const { hash } = corner.design;
  const study = ((selected && foundForPair(studies, hash, selected.between)) ?? foundFor(state, hash))?.[
    unit
  ];
  return (
    <>
      <Standing of={state} />
      <Standing of={others} isAside />
      {state.kind === 'cancelled' && study === undefined && <CancelledStudy />}
      {study !== undefined && <Study study={study} selected={selected} />}
      {state.kind === 'none' && selected === undefined && <ChoosePair />}
    </>
  );
}

/** How far a study is, or why it failed. `isAside`: nobody waits for it, so screen readers do not read it out. */
function Standing({ of, isAside = false }: { of: StudyState<unknown>; isAside?: boolean }) {
  if (of.kind === 'running')
    return <StudyProgress done={of.done} total={of.total} what={of.what ?? ''} isQuiet={isAside} />;
  if (of.kind !== 'failed') return null;
  return (
    <p className="bench-problem" role="alert">
      {of.label} could not be studied: {of.why}
    </p>
  );
}

const ChoosePair = () => <p className="bench-kind">Choose a pair in the list of pairs.</p>;

/** A study, with the selected pair of it. */
function Study({ study, selected }: { study: MeasuringErrorInWords; selected: ReturnType<typeof pairOf> }) {
  const studied = selected && studiedPair(study.pairs, ...selected.between);
  return (
    <div data-testid="measuring-error">
      {study.among === undefined ? (
        <p role="status">{wholeInWords(study)}</p>
      ) : (
        studied !== undefined && <p role="status">{selected?.label} is studied.</p>
      )}
      {!study.hasPlusMinus && <p className="bench-kind">{NO_PLUS_MINUS}</p>}
      {selected === undefined && <ChoosePair />}
      {selected !== undefined && studied === undefined && (
        <p className="bench-kind">The selected pair is not studied, or far from touching.</p>
      )}
      {studied !== undefined && <StudiedPair pair={studied} />}
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
