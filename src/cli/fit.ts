import { basename, dirname } from 'node:path';
import type { Design } from '../design/design.ts';
import { parseDesign } from '../design/parse.ts';
import { fitJson } from '../report/clocking/fitJson.ts';
import { type FitTold, fitLines } from '../report/clocking/fitText.ts';
import { printable } from '../report/escape.ts';
import { figuresIn } from '../report/figures.ts';
import { clockedSource, type Mounting, mountedSource, mountingsOf } from '../studies/clocking/apply.ts';
import { lowerArmDistance } from '../studies/clocking/lowerArm.ts';
import { type ClockingStudy, studyClocking } from '../studies/clocking/study.ts';
import { type Clockings, drawnClockings } from '../studies/clocking/studyPairs.ts';
import { sweepCandidates } from '../studies/clocking/sweepCandidates.ts';
import type { Wants } from '../studies/clocking/wants.ts';
import { FEWER_STEPS } from '../studies/fewerSteps.ts';
import { DEFAULT_SETTINGS } from '../sweep/result.ts';
import { setUp } from '../sweep/setUp.ts';
import type { Command } from './command.ts';
import { programVersion } from './context.ts';
import { EXIT, type ExitCode, Failure } from './exit.ts';
import { settingsOf } from './measure.ts';
import { lengthMm, numberOf, rangeOf, required, type Typed, unitOf, wholeNumber } from './options.ts';
import { progressOn } from './progress.ts';
import { namingFile, problemsFailure, readCorner } from './readCorner.ts';
import { checkFolder, writeFiles } from './writeFiles.ts';

export const fit: Command = {
  name: 'fit',
  operands: 'FILE',
  summary: 'find clockings of caliper and hub at which all at the wheel clears',
  details: [
    'Turns the caliper, with its bolts, and the bolts of the hub about the wheel axis, at ride height, proves where all',
    'that turns clears what it passes, and lists the best clockings. Angles as in the file: 0 straight up, positive to the rear.',
    'Exit code 0: what is wanted can be had; 1: it cannot, or a pair is short that no clocking changes.',
  ],
  options: [
    'bleed',
    'caliper',
    'caliper-range',
    'hub-range',
    'margin',
    'mirrored',
    'heads-turned',
    'candidates',
    'swept',
    'apply',
    'save',
    'chord',
    'travel-steps',
    'steer-steps',
    'limit',
    'progress',
    'unit',
    'json',
  ],
  async run(typed, context) {
    const file = required('the corner file', typed.file);
    const settings = settingsOf(typed, FEWER_STEPS);
    unitOf(typed);
    const wants = wantsOf(typed);
    const most = wholeNumber(typed, 'candidates', 1, 50, 5);
    const applied = appliedOf(typed, most);
    if (applied !== undefined) await checkFolder(dirname(applied.save));
    const { signal } = context;
    const design = mounted(file, await readCorner(file), typed);
    const shown = typed.values.has('progress');
    const setup = await namingFile(file, () =>
      setUp(design, { ...DEFAULT_SETTINGS, chordToleranceMm: settings.chordToleranceMm }),
    );
    const studying = progressOn(context, 'Turning, pairs', shown);
    const study = await asked(() =>
      studyClocking(setup, { wants, most, signal, onProgress: studying.update }),
    ).finally(studying.end);
    const sweeping = progressOn(context, 'Sweeping, candidates', shown);
    const swept = typed.values.has('swept')
      ? await namingFile(file, () =>
          sweepCandidates(design, study.candidates, { settings, signal, onProgress: sweeping.update }),
        ).finally(sweeping.end)
      : undefined;
    const told: FitTold = { corner: design.corner, study, toLowerArm: lowerArmDistance(setup), swept };
    const figures = figuresIn(unitOf(typed, design.corner.unit));
    const ranked: readonly Clockings[] = swept?.map(({ candidate }) => candidate) ?? study.candidates;
    const written = applied && (await save(design, ranked, applied, signal));
    if (typed.values.has('json')) context.print(fitJson(design, told, await programVersion()).trimEnd());
    else {
      const { name, side } = design.corner;
      context.print(
        [
          printable(`${name}, front ${side} corner`),
          '',
          ...fitLines(told, figures),
          ...(written === undefined ? [] : ['', `Written: ${written}`]),
          '',
          'Geometry only: mock the assembly up and take it through its travel by hand before it runs.',
        ].join('\n'),
      );
    }
    return exitOf(study);
  },
};

function wantsOf(typed: Typed): Wants {
  const place = typed.values.get('caliper');
  if (place !== undefined && place !== 'ahead' && place !== 'behind')
    throw new Failure(EXIT.usage, `--caliper: "${place}" is not allowed; ahead or behind is`);
  const arc = (name: 'caliper-range' | 'hub-range') => {
    const range = rangeOf(typed, name, -360, 360);
    return range && { fromDeg: range.from, toDeg: range.to };
  };
  return {
    bleedWithinDeg: numberOf(typed, 'bleed', 0.1, 180),
    caliperPlace: place,
    caliperRange: arc('caliper-range'),
    hubRange: arc('hub-range'),
    leastMarginMm: lengthMm(typed, 'margin', 0, 20, 0),
  };
}

interface Applied {
  candidate: number;
  save: string;
}

function appliedOf(typed: Typed, most: number): Applied | undefined {
  const path = typed.values.get('save');
  if (!typed.values.has('apply')) {
    if (path === undefined) return undefined;
    throw new Failure(EXIT.usage, '--save needs the number of the candidate that is written: --apply N');
  }
  return { candidate: wholeNumber(typed, 'apply', 1, most, 1), save: required('--save FILE', path) };
}

/** The corner mounted the way round that was asked for. */
function mounted(file: string, design: Design, { values }: Typed): Design {
  const mounting: Mounting = {
    caliperMirrored: values.has('mirrored'),
    headsTurned: values.has('heads-turned'),
  };
  if (!design.corner.parts.some(({ kind }) => kind === 'caliper'))
    throw new Failure(EXIT.badInput, `${file}: has no part of kind "caliper", whose clocking could be tried`);
  const known = mountingsOf(design);
  const one = (round: Mounting) =>
    round.caliperMirrored === mounting.caliperMirrored && round.headsTurned === mounting.headsTurned;
  if (!known.some(one))
    throw new Failure(
      EXIT.usage,
      mounting.headsTurned && !known.some(({ headsTurned }) => headsTurned)
        ? '--heads-turned: the file has no "bolts" that join the "hubMount"'
        : '--mirrored: the caliper has no "bleedScrew" in the file, and is the same the other way round',
    );
  const parsed = parseDesign(JSON.stringify(mountedSource(design, mounting)));
  if (parsed.kind === 'bad') throw problemsFailure(file, parsed.problems);
  return parsed.design;
}

/** A want that cannot be ends as a command line that is not understood. */
async function asked<T>(work: () => Promise<T>): Promise<T> {
  try {
    return await work();
  } catch (error) {
    throw error instanceof RangeError ? new Failure(EXIT.usage, error.message) : error;
  }
}

async function save(
  design: Design,
  ranked: readonly Clockings[],
  { candidate, save: path }: Applied,
  signal: AbortSignal,
): Promise<string> {
  const chosen = ranked[candidate - 1];
  if (chosen === undefined)
    throw new Failure(
      EXIT.usage,
      `--apply ${candidate}: there ${ranked.length === 1 ? 'is 1 candidate' : `are ${ranked.length} candidates`}`,
    );
  const data = `${JSON.stringify(clockedSource(design.source, drawnClockings(design), chosen), null, 2)}\n`;
  await writeFiles(dirname(path), [{ name: basename(path), data }], signal);
  return path;
}

function exitOf({ candidates, unchanging }: ClockingStudy): ExitCode {
  if (candidates.length === 0 || unchanging.marginMm - unchanging.errorMm < 0) return EXIT.short;
  return Number.isNaN(unchanging.marginMm) ? EXIT.unknown : EXIT.clear;
}
