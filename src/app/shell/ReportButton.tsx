import { useId } from 'react';
import { useWholeStudy } from '../sheets/measuringError/measuringErrorStore.ts';
import { isSwept, useCorner } from '../state/cornerStore.ts';
import { statusOf, useDocument } from '../state/documentStore.ts';
import { reportRefusal } from '../state/reportRefusal.ts';
import { useSession } from '../state/session.ts';
import { useView } from '../state/viewStore.ts';
import type { ReportForm } from './saveReport.ts';

const OTHER_FORMS: readonly (readonly [ReportForm, string])[] = [
  ['pdf A4', 'PDF, A4'],
  ['pdf Letter', 'PDF, Letter'],
  ['markdown', 'Markdown'],
  ['csv', 'Tables as CSV'],
  ['json', 'JSON'],
];

/** Saves the clearance report: as one HTML file, or in another form. */
export function ReportButton() {
  const session = useSession();
  const swept = useCorner((state) => isSwept(state.progress));
  const standing = useDocument(statusOf);
  const why = reportRefusal(standing, swept);
  const measuringError = useWholeStudy();
  const unit = useView((view) => view.unit);
  const id = useId();
  const save = async (form: ReportForm) => {
    // Loaded on demand, so that the first picture does not wait for it.
    const { saveReport } = await import('./saveReport.ts');
    await saveReport(session, form, measuringError?.[unit]);
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
        onClick={() => void save('html')}
      >
        <span className="wide">Clearance </span>report
      </button>
      <select
        className="report-forms"
        aria-label="Report in another form"
        title="Report in another form"
        disabled={why !== undefined}
        value=""
        onChange={(event) => void save(event.target.value as ReportForm)}
      >
        <option value="" disabled hidden />
        {OTHER_FORMS.map(([form, words]) => (
          <option key={form} value={form}>
            {words}
          </option>
        ))}
      </select>
      {why !== undefined && (
        <span id={id} className="unseen">
          No report: {why}.
        </span>
      )}
    </>
  );
}
