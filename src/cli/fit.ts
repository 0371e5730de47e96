import { basename, dirname } from 'node:path';
import type { Design } from '../design/design.ts';
import { visible } from '../design/plainText.ts';
import { crewOfThreads } from '../executors/nodeThreads.ts';
import { type LimitFinding, limitFindings } from '../findings/limitFindings.ts';
import { fitJson } from '../report/clocking/fitJson.ts';
import { type FitTold, fitLines } from '../report/clocking/fitText.ts';
import { figuresIn } from '../report/figures.ts';
import { clockedDesign } from '../studies/clocking/apply.ts';
import { lowerArmDistance } from '../studies/clocking/lowerArm.ts';
import { reachAt } from '../studies/clocking/reach.ts';
import {
  type MountedCandidate,
  type MountingsStudy,
  missingOf,
  mountedSetups,
  soundFirst,
  studyMountings,
} from '../studies/clocking/studyMountings.ts';
import { knownMm, type SweptCandidate, sweepCandidates } from '../studies/clocking/sweepCandidates.ts';
import type { Wants } from '../studies/clocking/wants.ts';
import { FEWER_STEPS } from '../studies/fewerSteps.ts';
import { measurePairsBy } from '../studies/vary/measurePairs.ts';
import { limitsOf } from '../sweep/limits.ts';
import { DEFAULT_SETTINGS, type SweepSettings } from '../sweep/result.ts';
import { setUp } from '../sweep/setUp.ts';
import { clockingThreads } from './clockingThreads.ts';
import type { Command } from './command.ts';
import { type Context, programVersion } from './context.ts';
import { EXIT, type ExitCode, Failure } from './exit.ts';
import { type Applied, appliedOf, mountingsTyped, wantsOf } from './fitTyped.ts';
import { settingsOf, threadsOf } from './measure.ts';
import { required, type Typed, unitOf, wholeNumber } from './options.ts';
import { progressOn } from './progress.ts';
import { reachCode } from './reachCode.ts';
import { namingFile, readCorner } from './readCorner.ts';
import { checkFolder, writeFiles } from './writeFiles.ts';

export const fit: Command = {
  name: 'fit',
  operands: 'FILE',
  summary: 'find clockings of caliper and hub at which all at the wheel clears',
  details: [
    'Turns the caliper, with its bolts, and the bolts of the hub about the wheel axis, at ride height, proves where all',
    'that turns clears what it passes, and lists the best clockings. Angles as in the file: 0 straight up, positive to the rear.',
    'With --mounting all, every way round that the caliper and the bolts of the hub can be mounted is tried, and the',
    'candidates of all are ranked together. --unsplit names bolts, of the hub or the caliper, and a plate that is not to stand',
    'between them, seen along the axis: upperLeg, lowerLeg, steeringArm, or the id of a plate that rides on the upright.',
    'Of each candidate it tells which bolts cannot be reached in the steps of assembly.',
    'With --swept, candidates are measured over all travel and lock as well, and ranked by that.',
    'Exit code 0: what is wanted can be had; 1: it cannot, over travel and lock neither where that is swept, or a pair is short',
    'that no clocking changes, or a joint or damper binds, or no candidate has all bolts within reach.',
  ],
  options: [
    'bleed',
    'caliper',
    'caliper-range',
    'hub-range',
    'margin',
    'unsplit',
    'mounting',
    'candidates',
    'swept',
    'apply',
    'save',
    'chord',
    'travel-steps',
    'steer-steps',
    'limit',
    'threads',
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
    const design = await readCorner(file);
    const mountings = mountingsTyped(file, design, typed);
    const shown = typed.values.has('progress');
    const studying = progressOn(context, 'Turning, pairs', shown);
    // Threads load while the corner is built.
    const crew = clockingThreads(threadsOf(typed));
    const study = await (async () => {
      const setups = await namingFile(file, async () =>
        mountedSetups(
          await setUp(design, { ...DEFAULT_SETTINGS, chordToleranceMm: settings.chordToleranceMm }),
          mountings,
        ),
      );
      return asked(() => studyMountings(setups, { wants, most, signal, crew, onProgress: studying.update }));
    })().finally(() => {
      studying.end();
      crew.end();
    });
    const swept = typed.values.has('swept')
      ? await namingFile(file, () => sweptInOrder(study, wants, settings, typed, context))
      : undefined;
    const ranked = swept?.map(({ candidate }) => candidate) ?? study.candidates;
    const reaching = progressOn(context, 'Reaching bolts, candidates', shown);
    const reach = design.corner.parts.some(({ kind }) => kind === 'bolts')
      ? await namingFile(file, () =>
          reachAt(ranked, designOf(study), {
            chordToleranceMm: settings.chordToleranceMm,
            signal,
            onProgress: reaching.update,
          }),
        ).finally(reaching.end)
      : undefined;
    const limits = swept?.[0]?.findings.limits ?? limitsAtRideHeight(study);
    const told: FitTold = {
      ...study,
      mounted: study.mounted.map((one) => ({ ...one, toLowerArm: lowerArmDistance(one.setup) })),
      swept,
      reach,
      limits,
    };
    const figures = figuresIn(unitOf(typed, design.corner.unit));
    const written = applied && (await save(study, ranked, applied, signal));
    if (typed.values.has('json')) context.print(fitJson(design, told, await programVersion()).trimEnd());
    else {
      const { name, side } = design.corner;
      context.print(
        [
          visible(`${name}, front ${side} corner`),
          '',
          ...fitLines(told, figures),
          ...(written === undefined ? [] : ['', `Written: ${written}`]),
          '',
          'Geometry only: mock the assembly up and take it through its travel by hand before it runs.',
        ].join('\n'),
      );
    }
    return exitOf(study, ranked[0], wants, { swept, reach, limits });
  },
};

/** Candidates by their worst over travel and lock. */
async function sweptInOrder(
  { mounted, candidates }: MountingsStudy,
  { leastMarginMm }: Wants,
  settings: SweepSettings,
  typed: Typed,
  context: Context,
): Promise<SweptCandidate<MountedCandidate>[]> {
  const sweeping = progressOn(context, 'Sweeping, candidates', typed.values.has('progress'));
  const crew = crewOfThreads(threadsOf(typed));
  const swept = await sweepCandidates(candidates, designOf({ mounted }), {
    settings,
    signal: context.signal,
    measure: measurePairsBy(crew),
    onProgress: (done, total) => sweeping.update(Math.floor(done), total),
  }).finally(() => {
    sweeping.end();
    crew.end();
  });
  const unchanging = mounted.map(({ study }) => study.unchanging);
  return soundFirst(swept, ({ candidate }) => candidate.mounting, unchanging, leastMarginMm);
}

/** Joints and dampers at ride height: no mounting changes them. */
function limitsAtRideHeight({ mounted: [{ setup }] }: MountingsStudy): LimitFinding[] {
  const zero = Float64Array.of(0);
  return limitFindings(limitsOf(setup.design.corner, setup.mechanism, zero, zero));
}

/** The corner as a candidate is mounted. */
const designOf =
  ({ mounted }: Pick<MountingsStudy, 'mounted'>) =>
  ({ mounting }: MountedCandidate): Design =>
    mounted[mounting].setup.design;

/** A want that cannot be ends as a command line that is not understood. */
async function asked<T>(work: () => Promise<T>): Promise<T> {
  try {
    return await work();
  } catch (error) {
    throw error instanceof RangeError ? new Failure(EXIT.usage, error.message) : error;
  }
}

async function save(
  { mounted }: MountingsStudy,
  ranked: readonly MountedCandidate[],
  { candidate, save: path }: Applied,
  signal: AbortSignal,
): Promise<string> {
  const chosen = ranked[candidate - 1];
  if (chosen === undefined)
    throw new Failure(
      EXIT.usage,
      `--apply ${candidate}: there ${ranked.length === 1 ? 'is 1 candidate' : `are ${ranked.length} candidates`}`,
    );
  const { source } = clockedDesign(mounted[chosen.mounting].setup.design, chosen);
  const data = `${JSON.stringify(source, null, 2)}\n`;
  await writeFiles(dirname(path), [{ name: basename(path), data }], signal);
  return path;
}

/**
 * Of the best candidate and of how it is mounted; short where a joint or damper binds or no candidate has all bolts reached
 * as well, unknown where either cannot be told.
 */
function exitOf(
  { mounted }: MountingsStudy,
  best: MountedCandidate | undefined,
  { leastMarginMm }: Wants,
  { swept, reach, limits }: Pick<FitTold, 'swept' | 'reach' | 'limits'>,
): ExitCode {
  if (best === undefined) return EXIT.short;
  const { unchanging } = mounted[best.mounting].study;
  if (missingOf(unchanging, leastMarginMm) > Number.MIN_VALUE) return EXIT.short;
  const isAny = (state: LimitFinding['state']) => limits.some((limit) => limit.state === state);
  if (isAny('binds')) return EXIT.short;
  const reached: readonly ExitCode[] = reach?.map(reachCode) ?? [EXIT.clear];
  const overTravel = swept === undefined ? EXIT.clear : sweptCode(swept[0], leastMarginMm);
  if (overTravel === EXIT.short || reached.every((code) => code === EXIT.short)) return EXIT.short;
  const isTold = !Number.isNaN(unchanging.marginMm) && overTravel === EXIT.clear && !isAny('unknown');
  return isTold && reached.includes(EXIT.clear) ? EXIT.clear : EXIT.unknown;
}

/** Of a candidate over all travel and lock: short where less is left than is wanted, or cannot be excluded. */
function sweptCode(
  { findings, worst, isProved }: SweptCandidate<MountedCandidate>,
  leastMarginMm = 0,
): ExitCode {
  const { counts, unreachableSteps } = findings;
  if (counts.touches > 0 || (worst !== undefined && knownMm(worst) < leastMarginMm)) return EXIT.short;
  return isProved && unreachableSteps.length === 0 ? EXIT.clear : EXIT.unknown;
}
