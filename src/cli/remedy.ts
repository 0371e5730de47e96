import { startThreadPool } from '../executors/nodeThreads.ts';
import { figuresIn } from '../report/figures.ts';
import { remedyJson } from '../report/remedy/remedyJson.ts';
import { remedyLines } from '../report/remedy/remedyText.ts';
import { FEWER_STEPS } from '../studies/fewerSteps.ts';
import { type Remedies, remediesOf } from '../studies/remedy/remedy.ts';
import { sweepAndProveBy } from '../studies/vary/measurePairs.ts';
import { visible } from '../units/plainText.ts';
import type { Command } from './command.ts';
import { programVersion } from './context.ts';
import { EXIT, type ExitCode, Failure } from './exit.ts';
import { SWEEP_OPTIONS, settingsOf, stepDefaults, threadsOf } from './measure.ts';
import { required, unitOf } from './options.ts';
import { pairTyped } from './pairTyped.ts';
import { progressOn } from './progress.ts';
import { rateThreads } from './rateThreads.ts';
import { namingFile, readCorner } from './readCorner.ts';
import { GEOMETRY_ONLY } from './words.ts';

export const remedy: Command = {
  name: 'remedy',
  operands: 'FILE [--pair A:B]',
  summary: 'find the smallest changes that clear a pair that touches or is tight',
  details: [
    'For each pair that touches or is tight (or the one named), finds each single value that clears it with the least change,',
    'in steps that a shop can make or buy. Sweeps and proves each changed corner, and lists what else it changes. If no single',
    'value clears the pair, tries two together. Values that the file marks as "fixed", parts that are bought, and static camber',
    'and toe stay as they are.',
    'Exit code 0: each of these pairs has a proposal, or there is no such pair; 1: one has no proposal; 2: a pair is unknown.',
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
    const rates = rateThreads(threads);
    const progress = progressOn(context, 'Trying changes', typed.values.has('progress'));
    let study: Remedies;
    try {
      study = await namingFile(file, () =>
        remediesOf(design, {
          settings,
          between,
          measure: sweepAndProveBy(pool),
          rates: rates.measure,
          signal: context.signal,
          onProgress: progress.update,
        }),
      );
    } catch (error) {
      throw error instanceof RangeError ? new Failure(EXIT.usage, `--pair: ${error.message}`) : error;
    } finally {
      progress.end();
      pool.end();
      rates.end();
    }
    const { name, side, unit } = design.corner;
    if (typed.values.has('json')) context.print(remedyJson(study, await programVersion()).trimEnd());
    else
      context.print(
        [
          visible(`${name}, front ${side} corner`),
          '',
          ...remedyLines(study, figuresIn(unitOf(typed, unit))),
          GEOMETRY_ONLY,
        ].join('\n'),
      );
    return exitOf(study);
  },
};

function exitOf({ hits, unknown }: Remedies): ExitCode {
  if (hits.some(({ remedies }) => remedies.length === 0)) return EXIT.short;
  return unknown.length > 0 ? EXIT.unknown : EXIT.clear;
}
