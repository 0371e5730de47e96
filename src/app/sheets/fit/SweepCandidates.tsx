import { StudyButtons } from '../../kit/StudyButtons.tsx';
import type { SweepState } from './useSweptCandidates.ts';

interface SweepCandidatesProps {
  state: SweepState;
  onStart(): void;
  onCancel(): void;
}

/** Starts and cancels the sweep of the candidates over all travel and lock, and shows its progress. */
export function SweepCandidates({ state, onStart, onCancel }: SweepCandidatesProps) {
  return (
    <div className="fit-sweep">
      <StudyButtons isRunning={state.kind === 'running'} onCancel={onCancel}>
        <button type="button" onClick={onStart}>
          Sweep the arrangements
        </button>
      </StudyButtons>
      {state.kind === 'failed' ? (
        <p className="bench-problem" role="alert">
          Sweep failed: {state.why}
        </p>
      ) : (
        <div className="fit-waiting" role="status">
          {state.kind === 'running' && (
            <>
              {Math.floor(state.done)} of {state.total} swept
              <progress value={state.done} max={Math.max(1, state.total)} aria-label="Arrangements swept" />
            </>
          )}
          {state.kind === 'none' && 'Ranked by margin at ride height.'}
          {state.kind === 'cancelled' && 'Cancelled. Ranked by margin at ride height.'}
          {state.kind === 'swept' && 'Ranked by worst margin over all travel and lock.'}
        </div>
      )}
    </div>
  );
}
