import { figuresIn, MM_PER_UNIT } from '../report/figures.ts';
import { alignmentCsv } from '../report/limits/alignmentColumns.ts';
import { alignmentLines } from '../report/limits/alignmentTables.ts';
import { limitsJson } from '../report/limits/limitsJson.ts';
import { alignmentOver } from '../studies/limits/alignmentStudy.ts';
import { visible } from '../units/plainText.ts';
import type { Command } from './command.ts';
import { programVersion } from './context.ts';
import { EXIT, Failure } from './exit.ts';
import { lengthMm, required, unitOf } from './options.ts';
import { namingFile, readCorner } from './readCorner.ts';
import { GEOMETRY_ONLY } from './words.ts';

/** Default step of travel and rack: 25 mm, or 1 in in a file in inches. */
const EVERY_MM = { mm: 25, in: MM_PER_UNIT.in };

export const limits: Command = {
  name: 'limits',
  operands: 'FILE [--every LENGTH]',
  summary: 'list the alignment over travel and steering',
  details: [
    'Lists camber, toe, caster, kingpin inclination, scrub radius, trail, half track, recession, instant centres, roll centre,',
    'motion ratio, Ackermann and anti-dive over travel and over steering. With --csv and --json: at every mix of both.',
  ],
  options: ['every', 'unit', 'csv', 'json'],
  async run(typed, context) {
    const file = required('the corner file', typed.file);
    unitOf(typed);
    lengthMm(typed, 'every', 1, 1000, EVERY_MM.mm);
    const design = await readCorner(file);
    const { corner } = design;
    const unit = unitOf(typed, corner.unit);
    const figures = figuresIn(unit);
    const everyMm = lengthMm(typed, 'every', 1, 1000, EVERY_MM[unit]);
    const alignment = await namingFile(file, async () => alignmentOver(corner, everyMm)).catch((error) => {
      throw error instanceof RangeError ? new Failure(EXIT.usage, `--every: ${error.message}`) : error;
    });
    if (typed.values.has('csv')) context.print(alignmentCsv(corner, alignment.steps, figures).trimEnd());
    else if (typed.values.has('json'))
      context.print(limitsJson(design, alignment, await programVersion()).trimEnd());
    else
      context.print(
        [
          visible(`${corner.name}, front ${corner.side} corner`),
          '',
          ...alignmentLines(corner, alignment, figures),
          GEOMETRY_ONLY,
        ].join('\n'),
      );
    return EXIT.clear;
  },
};
