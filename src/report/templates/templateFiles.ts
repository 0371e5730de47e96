import type { FlatPlate } from '../../solids/flatPlates/flatPlate.ts';
import type { Figures } from '../figures.ts';
import { uniqueNames } from '../uniqueNames.ts';
import type { Cutting } from './cutting.ts';
import { drawingOf } from './drawing.ts';
import { templateDxf } from './dxf.ts';
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
}

/** The files of the plates: `NAME.dxf` (R2000), `NAME.r12.dxf` and `NAME.svg` for each. */
export function templateFiles(
  plates: readonly FlatPlate[],
  { cutting, figures }: TemplateOptions,
): TemplateFile[] {
  const names = uniqueNames(plates.map(({ id }) => id));
  return plates.flatMap((plate, i) => {
    const drawing = drawingOf(plate, cutting, figures);
    const sheet = sheetOf(drawing);
    return [
      { name: `${names[i]}.dxf`, data: templateDxf(sheet, 'AC1015') },
      { name: `${names[i]}.r12.dxf`, data: templateDxf(sheet, 'AC1009') },
      { name: `${names[i]}.svg`, data: templateSvg(sheet, drawing.heading) },
    ];
  });
}
