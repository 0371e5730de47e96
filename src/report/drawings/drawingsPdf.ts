import type { TDocumentDefinitions } from 'pdfmake/interfaces.js';
import { POINTS_PER_MM } from '../pdf/paper.ts';
import type { Sheet, SheetHead } from './sheet.ts';

const orientation = ({ widthMm, heightMm }: Sheet) =>
  widthMm > heightMm ? ('landscape' as const) : ('portrait' as const);

/**
 * The sheets as a document for pdfmake, a page for each, in the size of the sheet. Its fonts must have a font named Roboto.
 * The same sheets give the same bytes.
 */
export function drawingsDefinition(
  sheets: readonly Sheet[],
  { name, version, date }: Pick<SheetHead, 'name' | 'version' | 'date'>,
): TDocumentDefinitions {
  const [first] = sheets;
  const [short, long] = [first.widthMm, first.heightMm].sort((a, b) => a - b);
  return {
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
  };
}
