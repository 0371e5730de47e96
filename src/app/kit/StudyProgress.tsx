import { capital } from './words.ts';

interface StudyProgressProps {
  done: number;
  /** 0 while the corner is still being built. */
  total: number;
  /** What has been done: "values tried". */
  what: string;
  /** Screen readers do not read it out. */
  isQuiet?: boolean;
}

/** Progress of a study. */
export function StudyProgress({ done, total, what, isQuiet = false }: StudyProgressProps) {
  return (
    <div className="fit-waiting" role={isQuiet ? undefined : 'status'}>
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
