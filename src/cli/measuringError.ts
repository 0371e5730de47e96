import { figuresIn } from '../report/figures.ts';
import { measuringErrorJson } from '../report/measuringError/measuringErrorJson.ts';
import { measuringErrorLines } from '../report/measuringError/measuringErrorText.ts';
import { FEWER_STEPS } from '../studies/fewerSteps.ts';
import type { MeasuringError } from '../studies/measuringError/measuringError.ts';
import { visible } from '../units/plainText.ts';
import type { Command } from './command.ts';
import { programVersion } from './context.ts';
import { EXIT, type ExitCode } from './exit.ts';
import { SWEEP_OPTIONS, stepDefaults } from './measure.ts';
import { measuringErrorTyped } from './measuringErrorTyped.ts';
import { unitOf } from './options.ts';
import { GEOMETRY_ONLY } from './words.ts';

/** Number of pairs in the text that are listed with their values: those with the least margin. */
const MOST_PAIRS = 5;

export const measuringError: Command = {
  name: 'measuring-error',
  operands: 'FILE [--pair A:B]',
  summary: 'show how much of each clearance the ± of the measured values can take',
  details: [
    'Measures how much each value changes each clearance, and adds up the ± of all values: worst case and root sum square.',
    'Then builds the corner with every value at its adverse end for a pair, and sweeps and proves that pair.',
    'Lists the pairs that are clear by less than that, and the values to measure again.',
    'Exit code 1: a pair touches or is tight; with --strict also if a clear pair is within the measuring error;',
    '2: a clearance, or whether a clear pair is within the measuring error, is not known.',
  ],
  options: ['pair', 'strict', ...SWEEP_OPTIONS, 'unit', 'json'],
  defaults: stepDefaults(FEWER_STEPS),
  async run(typed, context) {
    unitOf(typed);
    const study = await measuringErrorTyped(typed, context);
    const { name, side, unit } = study.sensitivity.setup.design.corner;
    if (typed.values.has('json')) context.print(measuringErrorJson(study, await programVersion()).trimEnd());
    else
      context.print(
        [
          visible(`${name}, front ${side} corner`),
          '',
          ...measuringErrorLines(study, MOST_PAIRS, figuresIn(unitOf(typed, unit))),
          GEOMETRY_ONLY,
        ].join('\n'),
      );
    return exitOfStudy(study, typed.values.has('strict'));
  },
};

/** As for a sweep: contact outweighs an unknown result, which outweighs a tight pair. Joints and dampers do not count. */
function exitOfStudy({ pairs, sensitivity }: MeasuringError, isStrict: boolean): ExitCode {
  const { findings, unknown } = sensitivity;
  const states = new Set(
    [...pairs, ...unknown.map((finding) => ({ finding }))].map(({ finding }) => finding.state),
  );
  if (states.has('touches')) return EXIT.short;
  const missesPoses = findings.unreachableSteps.length > 0 || (findings.lockedOut?.length ?? 0) > 0;
  if (states.has('unknown') || unknown.length > 0 || missesPoses) return EXIT.unknown;
  if (states.has('tight')) return EXIT.short;
  if (isStrict && pairs.some(({ isWithin }) => isWithin === true)) return EXIT.short;
  return pairs.some(({ isWithin }) => isWithin === undefined) ? EXIT.unknown : EXIT.clear;
}
