import { figuresIn } from '../report/figures.ts';
import { mockupJson } from '../report/mockup/mockupJson.ts';
import { mockupLines } from '../report/mockup/mockupText.ts';
import { FEWER_STEPS } from '../studies/fewerSteps.ts';
import { mockupOf } from '../studies/mockup/mockup.ts';
import { visible } from '../units/plainText.ts';
import type { Command } from './command.ts';
import { programVersion } from './context.ts';
import { EXIT, Failure } from './exit.ts';
import { settingsOf } from './measure.ts';
import { required, unitOf } from './options.ts';
import { progressOn } from './progress.ts';
import { namingFile, readCorner } from './readCorner.ts';
import { GEOMETRY_ONLY } from './words.ts';

export const mockup: Command = {
  name: 'mockup',
  operands: 'FILE',
  summary: 'compare the gaps measured on the mock-up with the computed ones',
  details: [
    'Computes each gap of the file’s "mockup" at its pose, and whether mesh error and measuring error explain the difference.',
    'If they do not, lists the values that are most probably wrong, for measuring again. It changes no value.',
    'Exit code 0: every gap agrees; 1: a gap differs; 2: a gap cannot be computed.',
  ],
  options: ['chord', 'progress', 'unit', 'json'],
  async run(typed, context) {
    const file = required('the corner file', typed.file);
    const settings = settingsOf(typed, FEWER_STEPS);
    unitOf(typed);
    const design = await readCorner(file);
    if (design.corner.mockup === undefined || design.corner.mockup.length === 0)
      throw new Failure(
        EXIT.badInput,
        `${file}: mockup: the file has no measured gaps. Add them as "mockup": see the guide, Measure your parts.`,
      );
    const progress = progressOn(context, 'Changing values', typed.values.has('progress'));
    const study = await namingFile(file, () =>
      mockupOf(design, { settings, signal: context.signal, onProgress: progress.update }),
    ).finally(() => progress.end());
    const { name, side, unit } = design.corner;
    if (typed.values.has('json')) context.print(mockupJson(study, await programVersion()).trimEnd());
    else
      context.print(
        [
          visible(`${name}, front ${side} corner`),
          '',
          ...mockupLines(study, figuresIn(unitOf(typed, unit))),
          GEOMETRY_ONLY,
        ].join('\n'),
      );
    if (study.gaps.some(({ isExplained }) => isExplained === false)) return EXIT.short;
    return study.gaps.some(({ isExplained }) => isExplained === undefined) ? EXIT.unknown : EXIT.clear;
  },
};
