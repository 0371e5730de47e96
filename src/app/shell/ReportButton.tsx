import { lazy, Suspense, useCallback, useId, useState } from 'react';
import { isSwept, useCorner } from '../state/cornerStore.ts';
import { statusOf, useDocument } from '../state/documentStore.ts';
import { reportRefusal } from '../state/reportRefusal.ts';
import type { DrawingsForm, ReportForm } from './saveReport.ts';

// Loaded on demand, so that the first picture does not wait for it.
const ReportDialog = lazy(() => import('./ReportDialog.tsx'));

const OTHER_FORMS: readonly (readonly [ReportForm | DrawingsForm, string])[] = [
  ['pdf A4', 'PDF, A4'],
  ['pdf Letter', 'PDF, Letter'],
  ['markdown', 'Markdown'],
  ['csv', 'Tables as CSV'],
  ['json', 'JSON'],
  ['drawings A4', 'Drawings as PDF, A4'],
  ['drawings Letter', 'Drawings as PDF, Letter'],
];

/** Saves the clearance report: as one HTML file, or in another form. */
export function ReportButton() {
  const swept = useCorner((state) => isSwept(state.progress));
  const standing = useDocument(statusOf);
  const why = reportRefusal(standing, swept);
  const id = useId();
  /** The form in which a report is being made. */
  const [form, setForm] = useState<ReportForm | DrawingsForm>();
  const done = useCallback(() => setForm(undefined), []);
  return (
    <>
      <button
        type="button"
        className="primary"
        aria-label="Clearance report"
        aria-describedby={why === undefined ? undefined : id}
        disabled={why !== undefined}
        title={why === undefined ? 'Save the report as an HTML file' : `No report: ${why}.`}
        onClick={() => setForm('html')}
      >
        <span className="wide">Clearance </span>report
      </button>
      <select
        className="report-forms"
        aria-label="Report in another form"
        title="Report in another form, and drawings"
        disabled={why !== undefined}
        value=""
        onChange={(event) => setForm(event.target.value as ReportForm | DrawingsForm)}
      >
        <option value="" disabled hidden />
        {OTHER_FORMS.map(([form, words]) => (
          <option key={form} value={form}>
            {words}
          </option>
        ))}
      </select>
      {form !== undefined && (
        <Suspense>
          <ReportDialog form={form} onClose={done} />
        </Suspense>
      )}
      {why !== undefined && (
        <span id={id} className="unseen">
          No report: {why}.
        </span>
      )}
    </>
  );
}
