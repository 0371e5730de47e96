import { useId } from 'react';
import { useKeeping } from '../keep/keepingStore.ts';
import { useSession } from '../session.ts';
import { isSwept, useCorner } from '../stores/cornerStore.ts';
import { standingOf, useDocument } from '../stores/documentStore.ts';
import { whyNoReport } from '../whyNoReport.ts';

/** Saves the clearance report as one HTML file. */
export function ReportButton() {
  const session = useSession();
  const swept = useCorner((state) => isSwept(state.progress));
  const standing = useDocument(standingOf);
  const why = whyNoReport(standing, swept);
  const id = useId();
  const save = async () => {
    const report = await session.report();
    if (report.kind === 'refused')
      return useKeeping.setState({ notSaved: `there is no report: ${report.why}.` });
    const link = document.createElement('a');
    link.href = URL.createObjectURL(new Blob([report.html], { type: 'text/html' }));
    link.download = report.fileName;
    link.click();
    // The download has begun by the time the next task runs.
    setTimeout(() => URL.revokeObjectURL(link.href), 0);
  };
  return (
    <>
      <button
        type="button"
        className="primary"
        aria-label="Clearance report"
        aria-describedby={why === undefined ? undefined : id}
        disabled={why !== undefined}
        title={why === undefined ? 'Save the report as an HTML file' : `No report: ${why}.`}
        onClick={() => void save()}
      >
        <span className="wide">Clearance </span>report
      </button>
      {why !== undefined && (
        <span id={id} className="unseen">
          No report: {why}.
        </span>
      )}
    </>
  );
}
