import pdfMake from 'pdfmake';
import type { Sheet, SheetHead } from './sheet.ts';

/** Where pdfmake finds the fonts: paths of files in Node, names in its virtual file system in a browser. */
export interface PdfFonts {
  normal: string;
  bold: string;
}

const POINTS_PER_MM = 72 / 25.4;

const orientation = ({ widthMm, heightMm }: Sheet) =>
  widthMm > heightMm ? ('landscape' as const) : ('portrait' as const);

/**
 * The sheets as one PDF, a page for each, in the size of the sheet. The same sheets give the same bytes. Rejects with an
 * Error if a font cannot be read.
 */
export async function drawingsPdf(
  sheets: readonly Sheet[],
  { name, version, date }: Pick<SheetHead, 'name' | 'version' | 'date'>,
  { normal, bold }: PdfFonts,
): Promise<Uint8Array> {
  pdfMake.setFonts({ Roboto: { normal, bold } });
  // Nothing but the fonts is loaded.
  pdfMake.setUrlAccessPolicy(() => false);
  pdfMake.setLocalAccessPolicy?.((path) => path === normal || path === bold);
  const [first] = sheets;
  const [short, long] = [first.widthMm, first.heightMm].sort((a, b) => a - b);
  return await pdfMake
    .createPdf({
      info: {
        title: `Drawings: ${name}`,
        creator: `Daylight ${version}`,
        producer: `Daylight ${version}`,
        creationDate: new Date(date),
      },
      pageSize: { width: short * POINTS_PER_MM, height: long * POINTS_PER_MM },
      pageOrientation: orientation(first),
      pageMargins: 0,
      content: sheets.map((sheet, i) => ({
        svg: sheet.svg,
        width: sheet.widthMm * POINTS_PER_MM,
        height: sheet.heightMm * POINTS_PER_MM,
        absolutePosition: { x: 0, y: 0 },
        ...(i > 0 ? { pageBreak: 'before' as const, pageOrientation: orientation(sheet) } : {}),
      })),
    })
    .getBuffer();
}
