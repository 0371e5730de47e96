import { useSession } from '../session.ts';
import { isSwept, useCorner } from '../stores/cornerStore.ts';

/** Saves the clearance report as one HTML file. */
export function ReportButton() {
  const session = useSession();
  const ready = useCorner((state) => isSwept(state.progress));
  const save = async () => {
    const report = await session.report();
    if (report === undefined) return;
    const link = document.createElement('a');
    link.href = URL.createObjectURL(new Blob([report.html], { type: 'text/html' }));
    link.download = report.fileName;
    link.click();
    // The download has begun by the time the next task runs.
    setTimeout(() => URL.revokeObjectURL(link.href), 0);
  };
  return (
    <button
      type="button"
      className="primary"
      aria-label="Clearance report"
      disabled={!ready}
      title={ready ? 'Save the report as an HTML file' : 'The report needs a finished sweep'}
      onClick={() => void save()}
    >
      <span className="wide">Clearance </span>report
    </button>
  );
}
