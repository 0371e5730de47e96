import { useEffect } from 'react';
import { SheetFrame } from '../../kit/SheetFrame.tsx';
import { StudyButtons } from '../../kit/StudyButtons.tsx';
import { CancelledStudy, StudyProgress } from '../../kit/StudyProgress.tsx';
import { pairLabel } from '../../kit/words.ts';
import type { OpenCorner } from '../../state/engine.ts';
import { useSession } from '../../state/session.ts';
import { useView } from '../../state/viewStore.ts';
import type { FoundRemedies } from '../../workers/remedy/remedyWorker.ts';
import { cancelRemedies, findRemedies, useRemedy } from './remedyStore.ts';

/** Remedies: the least changes that clear the selected pair. Each can be applied as one change. */
export default function RemedySheet({ corner, onClose }: { corner: OpenCorner; onClose(): void }) {
  const pair = useView((view) => view.pair);
  const { state } = useRemedy();
  const { hash } = corner.design;
  const isRunning = state.kind === 'running';
  const isStale = state.kind !== 'none' && state.designHash !== hash;

  useEffect(() => {
    if (isRunning && isStale) cancelRemedies();
  }, [isRunning, isStale]);

  const find = () => {
    if (pair === undefined) return;
    const { a, b } = corner.pairs[pair];
    const between = [corner.solids[a].id, corner.solids[b].id] as const;
    findRemedies(corner, between, pairLabel(corner.solids, corner.pairs[pair]));
  };
  return (
    <SheetFrame title="Remedies" onClose={onClose}>
      <p className="bench-kind">
        Looks for the least changes that clear the selected pair: of one value, or of two if no single one
        does. Each is swept and proved. The file does not change until you apply one.
      </p>
      {pair === undefined ? (
        <p className="bench-problem">Choose a pair that touches or is tight in the list of pairs.</p>
      ) : (
        <StudyButtons isRunning={isRunning} onCancel={cancelRemedies}>
          <button type="button" onClick={find}>
            Find remedies
          </button>
        </StudyButtons>
      )}
      {isStale ? (
        <p className="bench-kind" role="status">
          The corner has changed since remedies of {state.label} were found.
        </p>
      ) : (
        <Result />
      )}
    </SheetFrame>
  );
}

function Result() {
  const { state } = useRemedy();
  if (state.kind === 'none') return null;
  if (state.kind === 'failed')
    return (
      <p className="bench-problem" role="alert">
        {state.label}: no remedy could be found. {state.why}
      </p>
    );
  if (state.kind === 'done') return <Proposals label={state.label} found={state.found} />;
  if (state.kind === 'cancelled') return <CancelledStudy />;
  return <StudyProgress done={state.done} total={state.total} what="changes tried" />;
}

function Proposals({ label, found: { hit, scope, sources } }: { label: string; found: FoundRemedies }) {
  const session = useSession();
  const unit = useView((view) => view.unit);
  if (hit === undefined)
    return (
      <p className="bench-kind" role="status">
        {label} neither touches nor is tight.
      </p>
    );
  const { title, verdict, proposals, refused } = hit[unit];
  return (
    <section data-testid="remedies" aria-label={`Remedies of ${label}`}>
      <p role="status">{title}</p>
      {verdict.map((text) => (
        <p key={text} className="bench-kind">
          {text}
        </p>
      ))}
      {proposals.map((proposal, k) => (
        <fieldset key={proposal.title} className="bench-group">
          <legend>{proposal.title}</legend>
          {proposal.sentences.map((text) => (
            <p key={text} className="bench-kind">
              {text}
            </p>
          ))}
          <div className="vary-buttons">
            <button type="button" onClick={() => void session.change(proposal.title, sources[k])}>
              Apply
            </button>
          </div>
        </fieldset>
      ))}
      {[...refused, ...scope].map((text) => (
        <p key={text} className="bench-kind">
          {text}
        </p>
      ))}
    </section>
  );
}
