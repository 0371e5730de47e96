import { join } from 'node:path';
import { figuresIn } from '../report/figures.ts';
import { type Cutting, PROCESSES } from '../report/templates/cutting.ts';
import { templateFiles } from '../report/templates/templateFiles.ts';
import type { BendRule } from '../solids/flatPlates/flatPlate.ts';
import { flatPlatesOf } from '../solids/flatPlates/flatPlatesOf.ts';
import type { Command } from './command.ts';
import { EXIT, Failure } from './exit.ts';
import { lengthMm, numberOf, paperOf, required, type Typed, unitOf } from './options.ts';
import { pdfBytes } from './pdf.ts';
import { namingFile, readCorner } from './readCorner.ts';
import { checkFolder, writeFiles } from './writeFiles.ts';

export const template: Command = {
  name: 'template',
  operands: 'FILE --out DIR',
  summary: 'write a template at true scale of every flat plate',
  details: [
    'Plates of the upright (hub pad, legs, steering arm), brackets of calipers, and parts of kind "plate". Each is written as',
    'DXF R2000 (NAME.dxf), DXF R12 (NAME.r12.dxf), SVG (NAME.svg) and PDF on pages that overlap (NAME.pdf), in millimetres.',
    'Bent plates are developed flat.',
    'What the file does not say about a plate is listed on its template. Check the templates against the real parts before',
    'metal is cut.',
  ],
  options: ['out', 'paper', 'process', 'kerf', 'bend-radius', 'k-factor', 'unit'],
  defaults: { paper: 'Letter if figures are in inches, else A4' },
  async run(typed, context) {
    const file = required('the corner file', typed.file);
    const folder = required('--out DIR', typed.values.get('out'));
    unitOf(typed);
    const cutting = cuttingOf(typed);
    const bend = bendOf(typed);
    const paper = typed.values.has('paper') ? paperOf(typed) : undefined;
    await checkFolder(folder);
    const { corner } = await readCorner(file);
    const figures = figuresIn(unitOf(typed, corner.unit));
    const plates = await namingFile(file, () =>
      flatPlatesOf(corner, { bend, length: figures.givenWithUnit }),
    );
    if (plates.length === 0)
      throw new Failure(
        EXIT.badInput,
        `${file}: parts: there is no flat plate. Add a part of kind "upright" or "plate", or a bracket to the caliper.`,
      );
    const files = await templateFiles(plates, {
      cutting,
      figures,
      paper: paper ?? (figures.unit === 'in' ? 'Letter' : 'A4'),
      date: new Date(),
      pdfBytes,
    });
    await writeFiles(folder, files, context.signal);
    context.print(files.map(({ name }) => `Written: ${join(folder, name)}`).join('\n'));
    return EXIT.clear;
  },
};

function cuttingOf(typed: Typed): Cutting {
  const given = typed.values.get('process');
  const process = PROCESSES.find((one) => one === given);
  if (given !== undefined && process === undefined)
    throw new Failure(EXIT.usage, `--process: "${given}" is not allowed. Give ${PROCESSES.join(' or ')}.`);
  return { process, kerfMm: typed.values.has('kerf') ? lengthMm(typed, 'kerf', 0.01, 10, 0) : undefined };
}

function bendOf(typed: Typed): BendRule | undefined {
  const kFactor = numberOf(typed, 'k-factor', 0, 0.5);
  if (typed.values.has('bend-radius'))
    return { radiusMm: lengthMm(typed, 'bend-radius', 0, 100, 0), kFactor: kFactor ?? 0.5 };
  if (kFactor !== undefined) throw new Failure(EXIT.usage, '--k-factor needs --bend-radius');
  return undefined;
}
