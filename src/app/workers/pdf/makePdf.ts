import type { Remote } from 'comlink';
import type { ReportContent } from '../../../report/content.ts';
import type { DrawingsInput } from '../../../report/drawings/cornerDrawings.ts';
import type { Paper } from '../../../report/pdf/paper.ts';
import { callOnce } from '../remote.ts';
import type { PdfApi } from './pdfWorker.ts';

/** Calls the maker of PDF in a worker of its own. */
function inWorker(call: (api: Remote<PdfApi>) => Promise<Uint8Array>): Promise<Uint8Array> {
  const worker = new Worker(new URL('./pdfWorker.ts', import.meta.url), { type: 'module' });
  return callOnce(worker, call).result;
}

/** The report as PDF. */
export const makePdf = (content: ReportContent, paper: Paper, date: string): Promise<Uint8Array> =>
  inWorker((api) => api.make(content, paper, date));

/** The drawings of a corner as PDF. */
export const makeDrawingsPdf = (input: DrawingsInput): Promise<Uint8Array> =>
  inWorker((api) => api.drawings(input));
