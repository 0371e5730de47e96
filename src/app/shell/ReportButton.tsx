import { useId } from 'react';
import { useWholeStudy } from '../sheets/measuringError/measuringErrorStore.ts';
import { isSwept, useCorner } from '../state/cornerStore.ts';
import { statusOf, useDocument } from '../state/documentStore.ts';
import { useSaveState } from '../state/keep/saveState.ts';
import { reportRefusal } from '../state/reportRefusal.ts';
import { useSession } from '../state/session.ts';
import { useView } from '../state/viewStore.ts';
import { mockupForReport } from '../workers/mockup/compareMockup.ts';

/** Saves the clearance report as one HTML file. */
export function ReportButton() {
  const session = useSession();
  const swept = useCorner((state) => isSwept(state.progress));
  const standing = useDocument(statusOf);
  const why = reportRefusal(standing, swept);
  const measuringError = useWholeStudy();
  const unit = useView((view) => view.unit);
  const id = useId();
  const save = async () => {
    const report = await session.report(async (corner) => {
      // Loaded on demand, so that the first picture does not wait for it.
      const [{ limitsFor }, { checkBolts }] = await Promise.all([
        import('../sheets/limits/limitsStore.ts'),
        import('../workers/fit/checkBolts.ts'),
      ]);
      return {
        mockup: await mockupForReport(corner),
        measuringError: measuringError?.[unit],
        limits: limitsFor(corner, unit),
        bolts: await checkBolts(corner.design.corner, unit).result,
      };
    });
    if (report.kind === 'refused')
      return useSaveState.setState({ notSaved: `there is no report: ${report.why}.` });
    const link = document.createElement('a');
    link.href = URL.createObjectURL(new Blob([report.html], { type: 'text/html' }));
    link.download = report.fileName;
    link.click();
    // The download starts before the next task runs.
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
