import { visible } from '../design/plainText.ts';
import { crewOfThreads } from '../executors/nodeThreads.ts';
import { figuresIn } from '../report/figures.ts';
import { fitSentences, scopeSentences } from '../report/varied/fitSentences.ts';
import { variedGrid } from '../report/varied/variedGrid.ts';
import { variedJson } from '../report/varied/variedJson.ts';
import { variedTable } from '../report/varied/variedTable.ts';
import { FEWER_STEPS } from '../studies/fewerSteps.ts';
import { measurePairsBy } from '../studies/vary/measurePairs.ts';
import { type Study, varyCorner } from '../studies/vary/vary.ts';
import type { Command } from './command.ts';
import { programVersion } from './context.ts';
import { EXIT, type ExitCode, Failure } from './exit.ts';
import { SWEEP_OPTIONS, settingsOf, threadsOf } from './measure.ts';
import { required, unitOf } from './options.ts';
import { progressOn } from './progress.ts';
import { namingFile, readCorner } from './readCorner.ts';
import { axesTyped } from './varyAxes.ts';

export const vary: Command = {
  name: 'vary',
  operands: 'FILE --field PART.FIELD --from A --to B --step S',
  summary: 'try a dimension over a range, or wheels or tyres of a list: which fit',
  details: [
    'Builds the corner with each value, measures the pairs, joints and dampers that change with it over all travel and',
    `steering, proves what lies between the steps (${FEWER_STEPS.travelSteps} by ${FEWER_STEPS.steerSteps} here, where no others are typed), and closes in on the borders`,
    'of what fits. A value with which a joint or damper binds does not fit, whether the value changes it or not.',
    'A second field (--and), --tyres or --wheels beside the first are tried each with each. Exit code 0: every value fits.',
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
  async run(typed, context) {
    const file = required('the corner file', typed.file);
    const settings = settingsOf(typed, FEWER_STEPS);
    const threads = threadsOf(typed);
    unitOf(typed);
    const { signal } = context;
    const design = await readCorner(file);
    const unit = unitOf(typed, design.corner.unit);
    const axes = await axesTyped(typed, design, unit);
    const crew = crewOfThreads(threads);
    const measure = measurePairsBy(crew);
    const trying = progressOn(context, 'Trying values', typed.values.has('progress'));
    let study: Study;
    try {
      study = await namingFile(file, () =>
        varyCorner(design, axes, { settings, measure, signal, onProgress: trying.update }),
      );
    } catch (error) {
      throw error instanceof RangeError ? new Failure(EXIT.usage, error.message) : error;
    } finally {
      trying.end();
      crew.end();
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
          `The pair, joint or damper that fails, or the pair that comes nearest to it, in ${figures.unitName}:`,
          study.axes.length === 1 ? variedTable(study, corner, figures) : variedGrid(study, corner, figures),
          '',
          ...fitSentences(study, corner, figures).map(visible),
          ...scopeSentences(study).map(visible),
          'Geometry only: mock the assembly up and take it through its travel by hand before it runs.',
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
