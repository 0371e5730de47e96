import { expose, transfer } from 'comlink';
import type { ReportContent } from '../../../report/content.ts';
import type { Paper } from '../../../report/pdf/paper.ts';
import { reportDefinition } from '../../../report/pdf/reportPdf.ts';
import { pdfBytes } from './pdfBytes.ts';

const api = {
  /** The report as PDF. */
  async make(content: ReportContent, paper: Paper, date: string): Promise<Uint8Array> {
    const bytes = await pdfBytes(reportDefinition(content, paper, date));
    return transfer(bytes, [bytes.buffer]);
  },
};
export type PdfApi = typeof api;
expose(api);
