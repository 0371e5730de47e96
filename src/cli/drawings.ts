import { join } from 'node:path';
import { cornerDrawings } from '../report/drawings/cornerDrawings.ts';
import { drawingsDefinition } from '../report/drawings/drawingsPdf.ts';
import { buildSolids } from '../solids/catalogue.ts';
import { DEFAULT_SETTINGS } from '../sweep/result.ts';
import { visible } from '../units/plainText.ts';
import type { Command } from './command.ts';
import { programVersion } from './context.ts';
import { EXIT } from './exit.ts';
import { paperOf, required, unitOf } from './options.ts';
import { pdfBytes } from './pdf.ts';
import { namingFile, readCorner } from './readCorner.ts';
import { GEOMETRY_ONLY } from './words.ts';
import { checkFolder, writeFiles } from './writeFiles.ts';

export const drawings: Command = {
  name: 'drawings',
  operands: 'FILE --out DIR',
  summary:
    'draw front, side and top view and the section at the wheel axis, with main dimensions, as SVG and PDF',
  details: [
    'Draws the corner at ride height. Writes front.svg, side.svg, top.svg and section.svg, each a sheet at a round scale, and',
    'drawings.pdf with all sheets. A right corner is drawn as a right one. Do not cut from a drawing.',
  ],
  options: ['out', 'paper', 'unit'],
  async run(typed, context) {
    const file = required('the corner file', typed.file);
    const folder = required('--out DIR', typed.values.get('out'));
    const paper = paperOf(typed);
    unitOf(typed);
    await checkFolder(folder);
    const design = await readCorner(file);
    const { corner } = design;
    const head = { version: await programVersion(), date: new Date().toISOString() };
    const sheets = await namingFile(file, async () => {
      const solids = await buildSolids(corner, DEFAULT_SETTINGS.chordToleranceMm);
      return cornerDrawings({ design, solids, unit: unitOf(typed, corner.unit), paper, ...head });
    });
    const pdf = await pdfBytes(drawingsDefinition(sheets, { name: corner.name, ...head }));
    const files = [
      ...sheets.map(({ key, svg }) => ({ name: `${key}.svg`, data: svg })),
      { name: 'drawings.pdf', data: pdf },
    ];
    await writeFiles(folder, files, context.signal);
    context.print(
      [
        visible(`${corner.name}, front ${corner.side} corner`),
        ...sheets.map(({ title, ratio }) => `${title}, 1:${ratio}`),
        ...files.map(({ name }) => `Written: ${join(folder, name)}`),
        GEOMETRY_ONLY,
      ].join('\n'),
    );
    return EXIT.clear;
  },
};
