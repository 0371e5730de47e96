import { capital } from './words.ts';

/** Progress of a study. `what` has been done: "values tried". Without a total the corner is still being built. */
export function StudyProgress({ done, total, what }: { done: number; total: number; what: string }) {
  return (
    <div className="fit-waiting" role="status">
      {total === 0 ? 'Building the corner' : `${done} of ${total} ${what}`}
      <progress value={total === 0 ? undefined : done} max={Math.max(1, total)} aria-label={capital(what)} />
    </div>
  );
}

/** Shown in place of the result of a cancelled study. */
export const CancelledStudy = () => (
  <div className="fit-waiting" role="status">
    Cancelled. There is no result.
  </div>
);
