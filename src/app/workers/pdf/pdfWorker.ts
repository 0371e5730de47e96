import { expose, transfer } from 'comlink';
import type { ReportContent } from '../../../report/content.ts';
import { cornerDrawings, type DrawingsInput } from '../../../report/drawings/cornerDrawings.ts';
import { drawingsDefinition } from '../../../report/drawings/drawingsPdf.ts';
import type { Paper } from '../../../report/pdf/paper.ts';
import { reportDefinition } from '../../../report/pdf/reportPdf.ts';
import { pdfBytes } from './pdfBytes.ts';

const api = {
  /** The report as PDF. */
  async make(content: ReportContent, paper: Paper, date: string): Promise<Uint8Array> {
    const bytes = await pdfBytes(reportDefinition(content, paper, date));
    return transfer(bytes, [bytes.buffer]);
  },
  /** The drawings of a corner as PDF, a page for each sheet. */
  async drawings(input: DrawingsInput): Promise<Uint8Array> {
    const { version, date } = input;
    const head = { name: input.design.corner.name, version, date };
    const bytes = await pdfBytes(drawingsDefinition(cornerDrawings(input), head));
    return transfer(bytes, [bytes.buffer]);
  },
};
export type PdfApi = typeof api;
expose(api);
