import { useId } from 'react';
import type { VariedRow } from '../../report/varied/variedRows.ts';
import { useView } from '../stores/viewStore.ts';
import type { VariedTold, VaryState } from './varyStore.ts';

/** What a study found, or how far it is; of another corner than the one in hand, that it is of another. */
export function VariedFound({ state, isStale }: { state: VaryState; isStale: boolean }) {
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
  if (state.kind === 'told') return <Told label={state.label} told={state.told[unit]} />;
  return (
    <div className="fit-waiting" role="status">
      {state.kind === 'cancelled' ? (
        'Cancelled; nothing is known of these values.'
      ) : (
        <>
          {state.total === 0 ? 'Building the corner' : `${state.done} of ${state.total} values tried`}
          <progress
            value={state.total === 0 ? undefined : state.done}
            max={Math.max(1, state.total)}
            aria-label="Values tried"
          />
        </>
      )}
    </div>
  );
}

function Told({ label, told: { fits, scope, rows } }: { label: string; told: VariedTold }) {
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
        Geometry only: mock the assembly up and take it through its travel by hand before it runs.
      </p>
    </section>
  );
}

/** Of a list, which has no first and last. */
const countedFits = (rows: readonly VariedRow[]): string =>
  `${rows.filter(({ verdict }) => verdict === 'fits').length} of ${rows.length} fit.`;
