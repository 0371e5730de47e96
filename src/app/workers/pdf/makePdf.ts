import type { Remote } from 'comlink';
import type { ReportContent } from '../../../report/content.ts';
import type { Paper } from '../../../report/pdf/paper.ts';
import { callOnce } from '../remote.ts';
import type { PdfApi } from './pdfWorker.ts';

/** The report as PDF, made in a worker of its own. */
export function makePdf(content: ReportContent, paper: Paper, date: string): Promise<Uint8Array> {
  const worker = new Worker(new URL('./pdfWorker.ts', import.meta.url), { type: 'module' });
  return callOnce(worker, (api: Remote<PdfApi>) => api.make(content, paper, date)).result;
}
