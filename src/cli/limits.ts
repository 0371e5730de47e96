import { dirname } from 'node:path';
import type { Design } from '../design/design.ts';
import { figuresIn } from '../report/figures.ts';
import { alignmentCsv } from '../report/limits/alignmentColumns.ts';
import { alignmentLines } from '../report/limits/alignmentTables.ts';
import { limitsJson } from '../report/limits/limitsJson.ts';
import { stopLines, stoppedTravelInWords } from '../report/limits/stopText.ts';
import { limitTable } from '../report/limitTable.ts';
import { FEWER_STEPS } from '../studies/fewerSteps.ts';
import { alignmentOver, EVERY_MM } from '../studies/limits/alignmentStudy.ts';
import { lockOutDistances } from '../studies/limits/lockOuts.ts';
import { travelAtDamperLength } from '../studies/limits/stopFigures.ts';
import { STOP_KINDS, type StopKind, type StopStudy, withStop } from '../studies/limits/stops.ts';
import { visible } from '../units/plainText.ts';
import type { Command } from './command.ts';
import { programVersion } from './context.ts';
import { EXIT, type ExitCode, Failure } from './exit.ts';
import { SWEEP_OPTIONS, settingsOf, stepDefaults } from './measure.ts';
import { lengthMm, required, type Typed, unitOf } from './options.ts';
import { namingFile, readCorner } from './readCorner.ts';
import { stopsTyped } from './stopsTyped.ts';
import { GEOMETRY_ONLY } from './words.ts';
import { checkFolder, writeCorner } from './writeFiles.ts';

export const limits: Command = {
  name: 'limits',
  operands: 'FILE',
  summary:
    'find what runs out first and where the stops must go; list the alignment over travel and steering',
  details: [
    'Sweeps and proves the corner, and lists joints and damper, the distance to lock-out, and the part of travel and lock that',
    'can be used. Finds the least cut of lock, of bump and droop, and of both, after which every margin is kept and nothing',
    'binds, in steps that a shop can make; each changed corner is swept and proved. Then lists camber, toe, caster, kingpin',
    'inclination, scrub radius, trail, half track, recession, instant centres, roll centre, motion ratio, Ackermann and anti-dive.',
    'Exit code 0: nothing ends travel or lock; 1: something does, or fails at every pose; 2: a limit is unknown.',
  ],
  options: [
    'every',
    'alignment',
    'contact',
    'bump-stop',
    'strap',
    'stops',
    'save',
    ...SWEEP_OPTIONS,
    'unit',
    'csv',
    'json',
  ],
  defaults: stepDefaults(FEWER_STEPS),
  async run(typed, context) {
    const file = required('the corner file', typed.file);
    unitOf(typed);
    lengthMm(typed, 'every', 1, 1000, EVERY_MM.mm);
    const damperLengths = (
      [
        ['bump-stop', 'Bump stop solid'],
        ['strap', 'Strap tight'],
      ] as const
    ).flatMap(([option, what]) =>
      typed.values.has(option) ? [{ what, mm: lengthMm(typed, option, 1, 5000, 0) }] : [],
    );
    const saved = savedOf(typed);
    if (saved !== undefined) await checkFolder(dirname(saved.path));
    const design = await readCorner(file);
    const { corner } = design;
    const unit = unitOf(typed, corner.unit);
    const figures = figuresIn(unit);
    const everyMm = lengthMm(typed, 'every', 1, 1000, EVERY_MM[unit]);
    const alignment = await namingFile(file, async () => alignmentOver(corner, everyMm)).catch((error) => {
      throw error instanceof RangeError ? new Failure(EXIT.usage, `--every: ${error.message}`) : error;
    });
    if (typed.values.has('csv')) {
      context.print(alignmentCsv(corner, alignment.steps, figures).trimEnd());
      return EXIT.clear;
    }
    const stops = typed.values.has('alignment')
      ? undefined
      : await namingFile(file, () =>
          stopsTyped(design, typed, context, {
            settings: settingsOf(typed, FEWER_STEPS),
            goal: typed.values.has('contact') ? 'contact' : 'margins',
          }),
        );
    const lockOuts = stops && lockOutDistances(corner);
    const written = stops && saved && (await save(design, stops, saved, context.signal));
    if (typed.values.has('json'))
      context.print(limitsJson(design, { alignment, stops, lockOuts }, await programVersion()).trimEnd());
    else
      context.print(
        [
          visible(`${corner.name}, front ${corner.side} corner`),
          '',
          ...(stops && lockOuts
            ? [
                ...limitTable({ design, findings: stops.findings }, figures),
                ...stopLines(stops, lockOuts, figures).map(visible),
                '',
              ]
            : []),
          ...damperLengths.map(({ what, mm }) =>
            stoppedTravelInWords(what, mm, travelAtDamperLength(corner, mm), figures),
          ),
          ...(damperLengths.length > 0 ? [''] : []),
          ...alignmentLines(corner, alignment, figures),
          ...(written === undefined ? [] : [`Written: ${written}`]),
          GEOMETRY_ONLY,
        ].join('\n'),
      );
    return stops === undefined ? EXIT.clear : exitOf(stops);
  },
};

interface Saved {
  kind: StopKind;
  path: string;
}

/** Which stops to write, and where; undefined if neither is typed. */
function savedOf({ values }: Typed): Saved | undefined {
  const [typed, path] = [values.get('stops'), values.get('save')];
  if (typed === undefined && path === undefined) return undefined;
  if (typed === undefined) throw new Failure(EXIT.usage, '--save needs --stops lock, travel or both');
  const kind = STOP_KINDS.find((one) => one === typed);
  if (kind === undefined)
    throw new Failure(EXIT.usage, `--stops: "${typed}" is not allowed. Give ${STOP_KINDS.join(', ')}.`);
  return { kind, path: required('--save FILE', path) };
}

/** Writes the corner with stops, and the files that it lists beside it. */
async function save(
  design: Design,
  study: StopStudy,
  { kind, path }: Saved,
  signal: AbortSignal,
): Promise<string> {
  const stop = study.stops[kind];
  if (stop === undefined) throw new Failure(EXIT.usage, `--stops ${kind}: this corner has no such stops`);
  await writeCorner(withStop(design, stop), design.assets, path, signal);
  return path;
}

/** Exit code: what ends travel or lock outweighs what is unknown. */
function exitOf({ failing, always, unknown }: StopStudy): ExitCode {
  if (failing.length + always.length > 0) return EXIT.short;
  return unknown.length > 0 ? EXIT.unknown : EXIT.clear;
}
