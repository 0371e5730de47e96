import { visible } from '../design/plainText.ts';
import { auditJson } from '../report/audit/auditJson.ts';
import { type AuditReport, auditLines } from '../report/audit/auditText.ts';
import { figuresIn } from '../report/figures.ts';
import { type Audit, auditCorner } from '../studies/audit/audit.ts';
import type { Command } from './command.ts';
import { programVersion } from './context.ts';
import { EXIT, type ExitCode } from './exit.ts';
import { openCorner, settingsOf } from './measure.ts';
import { lengthMm, numberOf, required, unitOf } from './options.ts';
import { progressOn } from './progress.ts';

/** Volumes need no finer a mesh, and few poses: a contact that a zone hides lasts over much of the travel. */
const CHORD_MM = 0.1;
const STEPS = { travelSteps: 5, steerSteps: 5 };
const CLOCKING_STEP_DEG = 5;

export const audit: Command = {
  name: 'audit',
  operands: 'FILE',
  summary: 'look for contact that zones of intended contact, or pairs left out, may hide',
  details: [
    'Intersects the whole solids of every pair that has a zone of intended contact or is not checked, at 5 × 5 poses and at',
    'clockings of caliper and hub 5° apart, and takes away what the dimensions of the corner say is meant to touch: a ball in',
    'its seat, a bolt in its hole, clamped faces. What is left above 1 mm³ is listed with its place.',
    'Exit code 0: nothing is left; 1: something is; 2: nothing is, but a pose cannot be reached.',
  ],
  options: ['travel-steps', 'steer-steps', 'clocking-step', 'chord', 'progress', 'unit', 'json'],
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
    const turning = progressOn(context, 'Auditing, clockings', shown);
    const auditing = progressOn(context, 'Auditing, pairs', shown);
    const found = await auditCorner(setup, {
      clockingStepDeg,
      signal: context.signal,
      onClocking: turning.update,
      onProgress: auditing.update,
    }).finally(() => {
      turning.end();
      auditing.end();
    });
    const { design, solids } = setup;
    const report: AuditReport = { corner: design.corner, solids, audit: found };
    if (typed.values.has('json'))
      context.print(auditJson(report, design.hash, await programVersion()).trimEnd());
    else {
      const { name, side, unit } = design.corner;
      context.print(
        [
          visible(`${name}, front ${side} corner`),
          ...auditLines(report, figuresIn(unitOf(typed, unit))),
          'Geometry only: mock the assembly up and take it through its travel by hand before it runs.',
        ].join('\n'),
      );
    }
    return exitOf(found);
  },
};

function exitOf({ pairs, unreachable }: Audit): ExitCode {
  if (pairs.some(({ unexplained }) => unexplained !== undefined)) return EXIT.short;
  return unreachable > 0 ? EXIT.unknown : EXIT.clear;
}
