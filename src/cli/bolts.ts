import { holeLines, reachLines, stepLines } from '../report/bolts/assemblyLines.ts';
import { setLines } from '../report/bolts/setLines.ts';
import { figuresIn } from '../report/figures.ts';
import { indented } from '../report/textLine.ts';
import { entries } from '../solids/wheelFrame.ts';
import { studyAssembly } from '../studies/assembly/assembly.ts';
import { holeDistances } from '../studies/holeDistances.ts';
import { visible } from '../units/plainText.ts';
import type { Command } from './command.ts';
import { EXIT } from './exit.ts';
import { lengthMm, required, unitOf } from './options.ts';
import { reachCode } from './reachCode.ts';
import { namingFile, readCorner } from './readCorner.ts';

/** Fine enough to check the room for a tool. */
const CHORD_MM = 0.1;

export const bolts: Command = {
  name: 'bolts',
  operands: 'FILE',
  summary: 'check that every bolt can be put in, turned and taken out, and in which order',
  details: [
    'Checks each bolt at ride height, on its way out and with the tool that turns it, against the parts that are fitted at',
    'its step of assembly. Also lists holes that are close to an edge or to each other.',
    'Exit code 0: every bolt can be reached; 1: one cannot; 2: for one it is unknown.',
  ],
  options: ['chord', 'unit'],
  defaults: { chord: `${CHORD_MM} mm` },
  async run(typed, context) {
    const file = required('the corner file', typed.file);
    const chordToleranceMm = lengthMm(typed, 'chord', 0.005, 2, CHORD_MM);
    const { corner } = await readCorner(file);
    const figures = figuresIn(unitOf(typed, corner.unit));
    const holes = indented(holeLines(holeDistances(corner), figures));
    const heading = [`${corner.name}, front ${corner.side} corner`, ''];
    if (entries(corner, 'bolts').length === 0) {
      const none = 'The corner has no bolts: add parts of kind "bolts".';
      context.print([...heading, none, '', ...holes].map(visible).join('\n'));
      return EXIT.clear;
    }
    const study = await namingFile(file, () => studyAssembly(corner, { chordToleranceMm }));
    context.print(
      [
        ...heading,
        ...indented(setLines(corner, figures)),
        '',
        'Steps of assembly:',
        ...indented(stepLines(study, corner)),
        '',
        ...indented(reachLines(study, corner, figures)),
        '',
        ...holes,
        'Geometry only: try every bolt and its tool by hand before metal is cut.',
      ]
        .map(visible)
        .join('\n'),
    );
    return reachCode(study);
  },
};
