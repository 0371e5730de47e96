import { startThreadPool } from '../executors/nodeThreads.ts';
import { figuresIn } from '../report/figures.ts';
import { failingHeading } from '../report/limitRows.ts';
import { fitSentences, scopeSentences } from '../report/varied/fitSentences.ts';
import { variedGrid } from '../report/varied/variedGrid.ts';
import { variedJson } from '../report/varied/variedJson.ts';
import { variedTable } from '../report/varied/variedTable.ts';
import { FEWER_STEPS } from '../studies/fewerSteps.ts';
import { measurePairsBy } from '../studies/vary/measurePairs.ts';
import { type Study, varyCorner } from '../studies/vary/vary.ts';
import { visible } from '../units/plainText.ts';
import type { Command } from './command.ts';
import { programVersion } from './context.ts';
import { EXIT, type ExitCode, Failure } from './exit.ts';
import { SWEEP_OPTIONS, settingsOf, stepDefaults, threadsOf } from './measure.ts';
import { required, unitOf } from './options.ts';
import { progressOn } from './progress.ts';
import { namingFile, readCorner } from './readCorner.ts';
import { axesTyped } from './varyAxes.ts';
import { GEOMETRY_ONLY } from './words.ts';

export const vary: Command = {
  name: 'vary',
  operands: 'FILE --field PART.FIELD --from A --to B --step S',
  summary: 'try a dimension over a range, or a list of wheels or tyres, and report which values fit',
  details: [
    'Builds the corner with each value. Measures the pairs, joints and dampers that change with it over all travel and',
    'steering, proves the poses between the steps, and closes in on the borders between values that fit and values that',
    'do not. A value does not fit if a limit binds (joint, damper, drive shaft or brake hose), even one that the value does not change.',
    'With a second field (--and) or a list (--tyres, --wheels), each value is combined with each value of the other.',
    'Exit code 0: every value fits; 1: one does not; 2: none is known not to fit, but one is unknown.',
  ],
  options: [
    'field',
    'from',
    'to',
    'step',
    'and',
    'and-from',
    'and-to',
    'and-step',
    'tyres',
    'wheels',
    'within',
    ...SWEEP_OPTIONS,
    'unit',
    'json',
  ],
  defaults: stepDefaults(FEWER_STEPS),
  async run(typed, context) {
    const file = required('the corner file', typed.file);
    const settings = settingsOf(typed, FEWER_STEPS);
    const threads = threadsOf(typed);
    unitOf(typed);
    const { signal } = context;
    const design = await readCorner(file);
    const unit = unitOf(typed, design.corner.unit);
    const axes = await axesTyped(typed, design, unit);
    const pool = startThreadPool(threads);
    const measure = measurePairsBy(pool);
    const progress = progressOn(context, 'Trying values', typed.values.has('progress'));
    let study: Study;
    try {
      study = await namingFile(file, () =>
        varyCorner(design, axes, { settings, measure, signal, onProgress: progress.update }),
      );
    } catch (error) {
      throw error instanceof RangeError ? new Failure(EXIT.usage, error.message) : error;
    } finally {
      progress.end();
      pool.end();
    }
    const { corner } = design;
    const figures = figuresIn(unit);
    if (typed.values.has('json'))
      context.print(variedJson(design, settings, study, await programVersion()).trimEnd());
    else
      context.print(
        [
          visible(`${corner.name}, front ${corner.side} corner`),
          '',
          `${failingHeading(corner)} that fails, or else the pair with the least margin, in ${figures.unitName}:`,
          study.axes.length === 1 ? variedTable(study, corner, figures) : variedGrid(study, corner, figures),
          '',
          ...fitSentences(study, corner, figures).map(visible),
          ...scopeSentences(study, corner).map(visible),
          GEOMETRY_ONLY,
        ].join('\n'),
      );
    return exitOf(study);
  },
};

function exitOf({ cells }: Study): ExitCode {
  const verdicts = cells.map(({ tried }) => tried.verdict);
  if (verdicts.includes('fails')) return EXIT.short;
  return verdicts.includes('unknown') ? EXIT.unknown : EXIT.clear;
}
