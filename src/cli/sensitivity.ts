import { figuresIn } from '../report/figures.ts';
import { sensitivityJson } from '../report/sensitivity/sensitivityJson.ts';
import { sensitivityLines } from '../report/sensitivity/sensitivityText.ts';
import { FEWER_STEPS } from '../studies/fewerSteps.ts';
import { visible } from '../units/plainText.ts';
import type { Command } from './command.ts';
import { programVersion } from './context.ts';
import { EXIT } from './exit.ts';
import { SWEEP_OPTIONS, stepDefaults } from './measure.ts';
import { unitOf } from './options.ts';
import { withSensitivity } from './withSensitivity.ts';
import { GEOMETRY_ONLY } from './words.ts';

/** Number of pairs in the text: those with the least margin. */
const MOST_PAIRS = 5;

export const sensitivity: Command = {
  name: 'sensitivity',
  operands: 'FILE [--pair A:B]',
  summary: 'measure how much each length and angle of the file changes each clearance',
  details: [
    'Builds the corner with each value 1 mm (0.5°) lower and higher, and measures each pair that changes at its worst pose.',
    'Lists the slopes, in mm of clearance per mm or per degree, with their errors. If another pose or another place becomes',
    'the nearest within that step, the slopes below and above the value are listed apart.',
    'Exit code 0: all slopes are measured; 2: the clearance or depth of a pair is not known, and so its slopes are not.',
  ],
  options: ['pair', ...SWEEP_OPTIONS, 'unit', 'json'],
  defaults: stepDefaults(FEWER_STEPS),
  async run(typed, context) {
    unitOf(typed);
    const study = await withSensitivity(typed, context, async (measured) => measured);
    const { name, side, unit } = study.setup.design.corner;
    if (typed.values.has('json')) context.print(sensitivityJson(study, await programVersion()).trimEnd());
    else
      context.print(
        [
          visible(`${name}, front ${side} corner`),
          '',
          ...sensitivityLines(study, MOST_PAIRS, figuresIn(unitOf(typed, unit))),
          GEOMETRY_ONLY,
        ].join('\n'),
      );
    return study.unknown.length > 0 ? EXIT.unknown : EXIT.clear;
  },
};
