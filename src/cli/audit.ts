import { auditJson } from '../report/audit/auditJson.ts';
import { type AuditReport, auditLines } from '../report/audit/auditText.ts';
import { figuresIn } from '../report/figures.ts';
import { type Audit, auditCorner } from '../studies/audit/audit.ts';
import { visible } from '../units/plainText.ts';
import type { Command } from './command.ts';
import { programVersion } from './context.ts';
import { EXIT, type ExitCode } from './exit.ts';
import { openCorner, settingsOf, stepDefaults } from './measure.ts';
import { lengthMm, numberOf, required, unitOf } from './options.ts';
import { progressOn } from './progress.ts';
import { GEOMETRY_ONLY } from './words.ts';

/** A coarse mesh and few poses are enough: contact hidden by a zone lasts over much of the travel. */
const CHORD_MM = 0.1;
const STEPS = { travelSteps: 5, steerSteps: 5 };
const CLOCKING_STEP_DEG = 5;

export const audit: Command = {
  name: 'audit',
  operands: 'FILE',
  summary: 'find contact hidden by a zone of intended contact or in a pair that is not checked',
  details: [
    'Intersects the whole solids of every pair that has a zone of intended contact or is not checked, at 5 × 5 poses and at',
    'clockings of caliper and hub 5° apart. Subtracts the intended contact, computed from the dimensions of the corner: a',
    'ball in its seat, a bolt in its hole, clamped faces. Lists each remaining volume above 1 mm³ with its place.',
    'Exit code 0: no volume remains; 1: a volume remains; 2: none remains, but a pose cannot be reached.',
  ],
  options: ['travel-steps', 'steer-steps', 'clocking-step', 'chord', 'progress', 'unit', 'json'],
  defaults: { ...stepDefaults(STEPS), chord: `${CHORD_MM} mm` },
  async run(typed, context) {
    const file = required('the corner file', typed.file);
    const settings = {
      ...settingsOf(typed, STEPS),
      chordToleranceMm: lengthMm(typed, 'chord', 0.005, 2, CHORD_MM),
    };
    const clockingStepDeg = numberOf(typed, 'clocking-step', 1, 90) ?? CLOCKING_STEP_DEG;
    unitOf(typed);
    const setup = await openCorner(file, settings, context);
    const shown = typed.values.has('progress');
    const clockings = progressOn(context, 'Auditing, clockings', shown);
    const pairs = progressOn(context, 'Auditing, pairs', shown);
    const result = await auditCorner(setup, {
      clockingStepDeg,
      signal: context.signal,
      onClocking: clockings.update,
      onProgress: pairs.update,
    }).finally(() => {
      clockings.end();
      pairs.end();
    });
    const { design, solids } = setup;
    const report: AuditReport = { corner: design.corner, solids, audit: result };
    if (typed.values.has('json'))
      context.print(auditJson(report, design.hash, await programVersion()).trimEnd());
    else {
      const { name, side, unit } = design.corner;
      context.print(
        [
          visible(`${name}, front ${side} corner`),
          ...auditLines(report, figuresIn(unitOf(typed, unit))),
          GEOMETRY_ONLY,
        ].join('\n'),
      );
    }
    return exitOf(result);
  },
};

function exitOf({ pairs, unreachable }: Audit): ExitCode {
  if (pairs.some(({ unexplained }) => unexplained !== undefined)) return EXIT.short;
  return unreachable > 0 ? EXIT.unknown : EXIT.clear;
}
