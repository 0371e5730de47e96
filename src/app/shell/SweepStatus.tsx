import type { PairState } from '../../findings/findings.ts';
import { counted, figuresIn } from '../../report/figures.ts';
import { limitTitle } from '../../report/limitRows.ts';
import { isJoined, nothingElseInWords } from '../../report/treatment.ts';
import { StateMark } from '../kit/StateMark.tsx';
import { useWholeStudy } from '../sheets/measuringError/measuringErrorStore.ts';
import { type Swept, useCorner } from '../state/cornerStore.ts';
import { statusOf, useDocument } from '../state/documentStore.ts';
import { useSession } from '../state/session.ts';
import { useView } from '../state/viewStore.ts';

/** States in order of urgency: state, singular, plural. */
const COUNTS: readonly (readonly [PairState, string, string])[] = [
  ['touches', 'touches', 'touch'],
  ['tight', 'tight', 'tight'],
  ['unknown', 'unknown', 'unknown'],
  ['clear', 'clear', 'clear'],
  ['far', 'far', 'far'],
];

/** Counts of the sweep by state, its progress, and its controls. */
export function SweepStatus() {
  const session = useSession();
  const { corner, swept, progress, opening } = useCorner();
  const standing = useDocument(statusOf);
  const shown = useDocument((state) => state.shown?.label);
  const unit = useView((view) => view.unit);
  const within = useWholeStudy()?.[unit].withinCount ?? 0;
  if (opening !== undefined)
    return (
      <p className="status" role="status">
        Building {opening} …
      </p>
    );
  if (corner === undefined) return <p className="status" role="status" />;
  const limits = limitTitle(corner.design.corner);
  const joined = swept === undefined ? 0 : joinedCount(swept);
  // Joined pairs with nothing else near are counted separately from far pairs.
  const countOf = (state: PairState) => (swept?.findings.counts[state] ?? 0) - (state === 'far' ? joined : 0);
  const again = () =>
    void (progress?.kind !== 'done' && progress?.work === 'proof' ? session.prove() : session.sweep());
  if (standing === 'wrong')
    return (
      <p className="status" role="status">
        <span className="warning" title={shown}>
          The file has wrong values. Figures show the state after “{shown}”.
        </span>
      </p>
    );
  return (
    <div className="status" role="status" data-testid="sweep-status" data-progress={progress?.kind}>
      {swept !== undefined && (
        <span className="counts">
          {progress?.kind !== 'done' && <span className="soft">so far</span>}
          {swept.findings.limitCounts.binds > 0 && (
            <span className="count" data-state="binds" title={`${limits}: beyond what is allowed`}>
              <StateMark state="binds" />
              {swept.findings.limitCounts.binds} {swept.findings.limitCounts.binds === 1 ? 'binds' : 'bind'}
            </span>
          )}
          {swept.findings.limitCounts.unknown > 0 && (
            <span className="count" data-state="unknown" title={`${limits}: could not be computed`}>
              <StateMark state="unknown" />
              {counted(swept.findings.limitCounts.unknown, 'limit')} unknown
            </span>
          )}
          {COUNTS.filter(([state]) => countOf(state) > 0).map(([state, one, many]) => (
            <span key={state} className="count" data-state={state}>
              <StateMark state={state} />
              {countOf(state)} {countOf(state) === 1 ? one : many}
            </span>
          ))}
          {within > 0 && (
            <span
              className="count"
              data-state="clear"
              title="Clear pairs whose margin is less than their measuring error"
            >
              {within} within measuring error
            </span>
          )}
          {joined > 0 && (
            <span
              className="count"
              data-state="far"
              title={`Joined; ${nothingElseInWords(corner.settings.limitMm, figuresIn(unit))}`}
            >
              {joined} joined
            </span>
          )}
          {(swept.findings.unreachableSteps.length > 0 || (swept.findings.lockedOut?.length ?? 0) > 0) && (
            <span className="count" data-state="unknown" title="Part of travel and steer cannot be reached">
              <StateMark state="unknown" />
              locks out
            </span>
          )}
        </span>
      )}
      {progress?.kind === 'running' && (
        <>
          <progress
            value={progress.done}
            max={progress.total}
            aria-label={progress.work === 'sweep' ? 'Sweep' : 'Proof between the steps'}
          />
          <span className="progress-words">
            {progress.done} of {progress.total} {progress.work === 'sweep' ? 'rows swept' : 'pairs proved'}
            {progress.cells > 0 && `, ${progress.cells} cells`}
          </span>
          <button type="button" onClick={() => session.cancelSweep()}>
            Cancel
          </button>
        </>
      )}
      {progress?.kind === 'cancelled' && (
        <>
          <span className="warning">
            {progress.work === 'sweep'
              ? 'Sweep cancelled: the figures are not complete.'
              : 'Proof cancelled: only the steps are checked.'}
          </span>
          <button type="button" onClick={again}>
            {progress.work === 'sweep' ? 'Sweep' : 'Prove'}
          </button>
        </>
      )}
      {progress?.kind === 'failed' && (
        <>
          <span className="warning">
            {progress.work === 'sweep' ? 'Sweep failed' : 'Proof failed'}: {progress.why}
          </span>
          <button type="button" onClick={again}>
            Try again
          </button>
        </>
      )}
      {standing === 'building' && <span className="soft">Building the change …</span>}
      {standing === 'current' && progress?.kind === 'done' && swept !== undefined && (
        <span className="soft">
          {counted(swept.findings.solvedSteps, 'pose')} checked
          {swept.findings.lockedOut?.length === 0
            ? ', proven between'
            : ', proven between except where it locks out'}
          {swept.findings.unreachableSteps.length > 0 &&
            `, ${swept.findings.unreachableSteps.length} out of reach`}
        </span>
      )}
    </div>
  );
}

/** Pairs with nothing within the search limit that are joined. */
const joinedCount = ({ result, findings }: Swept): number =>
  findings.pairs.filter(({ state, pair }) => state === 'far' && isJoined(result.pairs[pair])).length;
