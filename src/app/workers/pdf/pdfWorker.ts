import { expose, transfer } from 'comlink';
import pdfmake from 'pdfmake/build/pdfmake.js';
import fonts from 'pdfmake/build/vfs_fonts.js';
import type { ReportContent } from '../../../report/content.ts';
import { type Paper, reportDefinition } from '../../../report/pdf/reportPdf.ts';

pdfmake.addVirtualFileSystem(fonts);
pdfmake.addFonts({
  Roboto: {
    normal: 'Roboto-Regular.ttf',
    bold: 'Roboto-Medium.ttf',
    italics: 'Roboto-Italic.ttf',
    bolditalics: 'Roboto-MediumItalic.ttf',
  },
});

const api = {
  /** The report as PDF. */
  async make(content: ReportContent, paper: Paper, date: string): Promise<Uint8Array> {
    const bytes = new Uint8Array(await pdfmake.createPdf(reportDefinition(content, paper, date)).getBuffer());
    return transfer(bytes, [bytes.buffer]);
  },
};
export type PdfApi = typeof api;
expose(api);
