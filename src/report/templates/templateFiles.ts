import type { TDocumentDefinitions } from 'pdfmake/interfaces.js';
import type { FlatPlate } from '../../solids/flatPlates/flatPlate.ts';
import type { Figures } from '../figures.ts';
import type { Paper } from '../pdf/paper.ts';
import { uniqueNames } from '../uniqueNames.ts';
import type { Cutting } from './cutting.ts';
import { drawingOf } from './drawing.ts';
import { templateDxf } from './dxf.ts';
import { templateDefinition } from './pdf.ts';
import { sheetOf } from './sheet.ts';
import { templateSvg } from './svg.ts';

/** A file of a template. */
export interface TemplateFile {
  name: string;
  data: string | Uint8Array;
}

/** How the templates of a corner are drawn. */
export interface TemplateOptions {
  cutting: Cutting;
  figures: Figures;
  paper: Paper;
  /** Date of the PDF files. */
  date: Date;
  /** Makes a PDF; each platform has its own way to the fonts. */
  pdfBytes(definition: TDocumentDefinitions): Promise<Uint8Array>;
}

/** The drawing of one plate, and the files of it: `NAME.dxf` (R2000), `NAME.r12.dxf`, `NAME.svg` and `NAME.pdf`. */
export async function templateFiles(
  plates: readonly FlatPlate[],
  { cutting, figures, paper, date, pdfBytes }: TemplateOptions,
): Promise<TemplateFile[]> {
  const names = uniqueNames(plates.map(({ id }) => id));
  const files: TemplateFile[] = [];
  for (const [i, plate] of plates.entries()) {
    const drawing = drawingOf(plate, cutting, figures);
    const sheet = sheetOf(drawing);
    files.push(
      { name: `${names[i]}.dxf`, data: templateDxf(sheet, 'AC1015') },
      { name: `${names[i]}.r12.dxf`, data: templateDxf(sheet, 'AC1009') },
      { name: `${names[i]}.svg`, data: templateSvg(sheet, drawing.heading) },
      { name: `${names[i]}.pdf`, data: await pdfBytes(templateDefinition(drawing, paper, date)) },
    );
  }
  return files;
}
