import { useId } from 'react';
import type { VariedRow } from '../../../report/varied/variedRows.ts';
import { CancelledStudy, StudyProgress } from '../../kit/StudyProgress.tsx';
import { useView } from '../../state/viewStore.ts';
import type { VariedResult as Result } from '../../workers/vary/varyWorker.ts';
import type { VaryState } from './varyStore.ts';

/** Result or progress of a study; if the corner has changed since, a note that says so. */
export function VariedResult({ state, isStale }: { state: VaryState; isStale: boolean }) {
  const unit = useView((view) => view.unit);
  if (state.kind === 'none') return null;
  if (isStale)
    return (
      <p className="bench-kind" role="status">
        The corner has changed since {state.label} was tried.
      </p>
    );
  if (state.kind === 'failed')
    return (
      <p className="bench-problem" role="alert">
        {state.label} could not be tried: {state.why}
      </p>
    );
  if (state.kind === 'done') return <ResultTable label={state.label} result={state.found[unit]} />;
  if (state.kind === 'cancelled') return <CancelledStudy />;
  return <StudyProgress done={state.done} total={state.total} what="values tried" />;
}

function ResultTable({ label, result: { fits, scope, rows } }: { label: string; result: Result }) {
  const heading = useId();
  return (
    <section className="varied" aria-labelledby={heading} data-testid="varied">
      <h3 id={heading}>{label}</h3>
      <div role="status">
        {fits.length === 0 ? <p>{countedFits(rows)}</p> : fits.map((text) => <p key={text}>{text}</p>)}
      </div>
      <table>
        <thead>
          <tr>
            <th scope="col">Value</th>
            <th scope="col">Result</th>
          </tr>
        </thead>
        <tbody>
          {rows.map((row, r) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: a list may hold one twice; rows change all at once
            <tr key={r} data-verdict={row.verdict}>
              <th scope="row">{row.value}</th>
              <td>
                <b>{row.result}</b>
                {row.lines.map((line) => (
                  <p key={line}>{line}</p>
                ))}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
      {scope.map((text) => (
        <p key={text} className="bench-kind">
          {text}
        </p>
      ))}
      <p className="bench-kind">
        Geometry only: mock up the assembly and cycle it through its travel by hand before it runs.
      </p>
    </section>
  );
}

/** Summary for a list, whose values have no order. */
const countedFits = (rows: readonly VariedRow[]): string =>
  `${rows.filter(({ verdict }) => verdict === 'fits').length} of ${rows.length} fit.`;
