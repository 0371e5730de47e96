import { startThreadPool } from '../executors/nodeThreads.ts';
import { figuresIn } from '../report/figures.ts';
import { sensitivityJson } from '../report/sensitivity/sensitivityJson.ts';
import { sensitivityLines } from '../report/sensitivity/sensitivityText.ts';
import { FEWER_STEPS } from '../studies/fewerSteps.ts';
import { type Sensitivity, sensitivityOf } from '../studies/sensitivity/sensitivity.ts';
import { sweepAndProveBy } from '../studies/vary/measurePairs.ts';
import { visible } from '../units/plainText.ts';
import type { Command } from './command.ts';
import { programVersion } from './context.ts';
import { EXIT, Failure } from './exit.ts';
import { SWEEP_OPTIONS, settingsOf, stepDefaults, threadsOf } from './measure.ts';
import { required, unitOf } from './options.ts';
import { pairTyped } from './pairTyped.ts';
import { progressOn } from './progress.ts';
import { namingFile, readCorner } from './readCorner.ts';
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
    const file = required('the corner file', typed.file);
    const settings = settingsOf(typed, FEWER_STEPS);
    const threads = threadsOf(typed);
    unitOf(typed);
    const between = pairTyped(typed.values.get('pair'));
    const design = await readCorner(file);
    const pool = startThreadPool(threads);
    const progress = progressOn(context, 'Changing values', typed.values.has('progress'));
    let study: Sensitivity;
    try {
      study = await namingFile(file, () =>
        sensitivityOf(design, {
          settings,
          between,
          measure: sweepAndProveBy(pool),
          signal: context.signal,
          onProgress: progress.update,
        }),
      );
    } catch (error) {
      throw error instanceof RangeError ? new Failure(EXIT.usage, `--pair: ${error.message}`) : error;
    } finally {
      progress.end();
      pool.end();
    }
    const { name, side, unit } = design.corner;
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
