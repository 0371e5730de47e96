import { useEffect, useMemo } from 'react';
import { figuresIn } from '../../../report/figures.ts';
import { alignmentCsv } from '../../../report/limits/alignmentColumns.ts';
import {
  alignmentTables,
  type TitledTable,
  unknownFigures,
  unreachedReasons,
} from '../../../report/limits/alignmentTables.ts';
import {
  boundInWords,
  edgeSentences,
  lockOutSentences,
  missingInWords,
  regionSentence,
  stopSentences,
  stopTitle,
} from '../../../report/limits/stopText.ts';
import { alignmentOver, EVERY_MM } from '../../../studies/limits/alignmentStudy.ts';
import { type ShownStops, STOP_KINDS } from '../../../studies/limits/stops.ts';
import { download } from '../../kit/download.ts';
import { SheetFrame } from '../../kit/SheetFrame.tsx';
import { StudyButtons } from '../../kit/StudyButtons.tsx';
import { CancelledStudy, StudyProgress } from '../../kit/StudyProgress.tsx';
import type { OpenCorner } from '../../state/engine.ts';
import { useSession } from '../../state/session.ts';
import { useView } from '../../state/viewStore.ts';
import type { FoundStops } from '../../workers/limits/limitsWorker.ts';
import { AlignmentCharts } from './AlignmentCharts.tsx';
import { DamperLength } from './DamperLength.tsx';
import { cancelStops, findStops, useLimits } from './limitsStore.ts';

/** What ends travel and lock, where the stops must go, and the alignment over travel and steering. */
export default function LimitsSheet({ corner, onClose }: { corner: OpenCorner; onClose(): void }) {
  const { state } = useLimits();
  const isRunning = state.kind === 'running';
  const isStale = state.kind !== 'none' && state.designHash !== corner.design.hash;

  useEffect(() => {
    if (isRunning && isStale) cancelStops();
  }, [isRunning, isStale]);

  return (
    <SheetFrame title="Travel, lock and stops" onClose={onClose}>
      <p className="bench-kind">
        Finds the part of travel and lock in which every margin is kept and nothing binds, and the stops that
        keep the corner inside it. Each is swept and proved.
      </p>
      <StudyButtons isRunning={isRunning} onCancel={cancelStops}>
        <button type="button" onClick={() => findStops(corner)}>
          Find stops
        </button>
      </StudyButtons>
      {isStale ? (
        <p className="bench-kind" role="status">
          The corner has changed since stops were found.
        </p>
      ) : (
        <Result corner={corner} />
      )}
      <DamperLength corner={corner} />
      <AlignmentList corner={corner} />
    </SheetFrame>
  );
}

function Result({ corner }: { corner: OpenCorner }) {
  const { state } = useLimits();
  if (state.kind === 'none') return null;
  if (state.kind === 'failed')
    return (
      <p className="bench-problem" role="alert">
        No stops could be found: {state.why}
      </p>
    );
  if (state.kind === 'cancelled') return <CancelledStudy />;
  if (state.kind === 'running')
    return <StudyProgress done={state.done} total={state.total} what="sweeps done" />;
  return <Stops corner={corner} found={state.found} />;
}

function Stops({ corner, found: { stops, lockOuts, sources } }: { corner: OpenCorner; found: FoundStops }) {
  const session = useSession();
  const figures = figuresIn(useView((view) => view.unit));
  const study: ShownStops = { ...stops, setup: corner };
  return (
    <section data-testid="stops" aria-label="Stops">
      <p role="status">{regionSentence(study)}</p>
      <Sentences texts={edgeSentences(study, figures)} />
      {study.always.length > 0 && (
        <>
          <p>Fails at ride height, straight ahead; no stop clears it:</p>
          <Sentences texts={study.always.map((bound) => boundInWords(study, bound))} />
        </>
      )}
      {study.failing.length > 0 &&
        STOP_KINDS.map((kind) => {
          const stop = study.stops[kind];
          if (stop === undefined)
            return (
              <p key={kind} className="bench-kind">
                {missingInWords(study, kind)}
              </p>
            );
          const title = stopTitle(study, stop);
          return (
            <fieldset key={kind} className="bench-group">
              <legend>{title}</legend>
              <Sentences texts={stopSentences(study, stop, figures)} />
              <div className="vary-buttons">
                <button type="button" onClick={() => void session.change(title, sources[kind])}>
                  Apply
                </button>
              </div>
            </fieldset>
          );
        })}
      <h3>Distance to lock-out</h3>
      <Sentences texts={lockOutSentences(study, lockOuts, figures)} />
    </section>
  );
}

const Sentences = ({ texts }: { texts: readonly string[] }) => (
  <ul className="bench-kind sentences">
    {texts.map((text) => (
      <li key={text}>{text}</li>
    ))}
  </ul>
);

/** The alignment tables, and all of them as a CSV file. */
function AlignmentList({ corner }: { corner: OpenCorner }) {
  const unit = useView((view) => view.unit);
  const { corner: design } = corner.design;
  const study = useMemo(() => alignmentOver(design, EVERY_MM[unit]), [design, unit]);
  const figures = figuresIn(unit);
  const save = () =>
    download('alignment.csv', new Blob([alignmentCsv(design, study.steps, figures)], { type: 'text/csv' }));
  return (
    <section aria-label="Alignment over travel and steering">
      <h3>Alignment over travel and steering</h3>
      {alignmentTables(design, study, figures).map((table) => (
        <AlignmentTable key={table.title} table={table} />
      ))}
      <Sentences texts={[...unknownFigures(design), ...unreachedReasons(study)]} />
      <div className="vary-buttons">
        <button type="button" onClick={save}>
          Save as CSV
        </button>
      </div>
    </section>
  );
}

function AlignmentTable({ table }: { table: TitledTable }) {
  const { title, signs, titles, rows } = table;
  return (
    <details>
      <summary>{title}</summary>
      <AlignmentCharts table={table} />
      <section className="wide-table" aria-label={title}>
        <table>
          <thead>
            <tr>
              {titles.map((heading) => (
                <th key={heading} scope="col">
                  {heading}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {rows.map((cells) => (
              <tr key={cells.slice(0, 2).join()}>
                {cells.map((cell, k) =>
                  k === 0 ? (
                    <th key={titles[k]} scope="row">
                      {cell}
                    </th>
                  ) : (
                    <td key={titles[k]}>{cell}</td>
                  ),
                )}
              </tr>
            ))}
          </tbody>
        </table>
      </section>
      <Sentences texts={signs} />
    </details>
  );
}
