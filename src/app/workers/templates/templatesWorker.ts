import { expose, transfer } from 'comlink';
import { strToU8, zipSync } from 'fflate';
import type { Corner } from '../../../design/schema.ts';
import { figuresIn, type LengthUnit } from '../../../report/figures.ts';
import type { Paper } from '../../../report/pdf/paper.ts';
import type { Cutting } from '../../../report/templates/cutting.ts';
import { templateFiles } from '../../../report/templates/templateFiles.ts';
import type { BendRule, FlatPlate } from '../../../solids/flatPlates/flatPlate.ts';
import { flatPlatesOf } from '../../../solids/flatPlates/flatPlatesOf.ts';
import { pdfBytes } from '../pdf/pdfBytes.ts';

/** How templates are drawn and written. */
export interface TemplateSettings {
  unit: LengthUnit;
  cutting: Cutting;
  paper: Paper;
}

const api = {
  /** The flat plates of a corner: see `flatPlatesOf`. */
  plates: (corner: Corner, bend: BendRule | undefined, unit: LengthUnit): Promise<FlatPlate[]> =>
    flatPlatesOf(corner, { bend, length: figuresIn(unit).givenWithUnit }),

  /** The files of plates, in one ZIP file. */
  async zip(
    plates: readonly FlatPlate[],
    { unit, cutting, paper }: TemplateSettings,
  ): Promise<Uint8Array<ArrayBuffer>> {
    const date = new Date();
    const files = await templateFiles(plates, { cutting, figures: figuresIn(unit), paper, date, pdfBytes });
    const bytes = zipSync(
      Object.fromEntries(
        files.map(({ name, data }) => [name, typeof data === 'string' ? strToU8(data) : data]),
      ),
      { mtime: date },
    );
    return transfer(bytes as Uint8Array<ArrayBuffer>, [bytes.buffer]);
  },
};
export type TemplatesApi = typeof api;
expose(api);
