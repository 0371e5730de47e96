import { dirname } from 'node:path';
import type { Design } from '../design/design.ts';
import { startThreadPool } from '../executors/nodeThreads.ts';
import { type LimitFinding, limitFindings } from '../findings/limitFindings.ts';
import { limitsOf } from '../proof/limits.ts';
import { fitJson } from '../report/clocking/fitJson.ts';
import { type FitReport, fitLines } from '../report/clocking/fitText.ts';
import { figuresIn } from '../report/figures.ts';
import { clockedDesign } from '../studies/clocking/apply.ts';
import { lowerArmDistance } from '../studies/clocking/lowerArm.ts';
import { reachAt } from '../studies/clocking/reach.ts';
import {
  type MountedCandidate,
  type MountingsStudy,
  mountedSetups,
  shortfallMm,
  studyMountings,
  validFirst,
} from '../studies/clocking/studyMountings.ts';
import { knownMm, type SweptCandidate, sweepCandidates } from '../studies/clocking/sweepCandidates.ts';
import type { Wants } from '../studies/clocking/wants.ts';
import { FEWER_STEPS } from '../studies/fewerSteps.ts';
import { measurePairsBy } from '../studies/vary/measurePairs.ts';
import { DEFAULT_SETTINGS, type SweepSettings } from '../sweep/result.ts';
import { setUp } from '../sweep/setUp.ts';
import { visible } from '../units/plainText.ts';
import { clockingThreads } from './clockingThreads.ts';
import type { Command } from './command.ts';
import { type Context, programVersion } from './context.ts';
import { EXIT, type ExitCode, Failure } from './exit.ts';
import { type Applied, appliedOf, mountingsTyped, wantsOf } from './fitTyped.ts';
import { settingsOf, stepDefaults, threadsOf } from './measure.ts';
import { required, type Typed, unitOf, wholeNumber } from './options.ts';
import { progressOn } from './progress.ts';
import { reachCode } from './reachCode.ts';
import { namingFile, readCorner } from './readCorner.ts';
import { GEOMETRY_ONLY } from './words.ts';
import { checkFolder, writeCorner } from './writeFiles.ts';

export const fit: Command = {
  name: 'fit',
  operands: 'FILE',
  summary: 'find clockings of caliper and hub at which every pair at the wheel clears',
  details: [
    'Turns the caliper with its bolts, and the bolts of the hub, about the wheel axis at ride height. Proves at which angles',
    'every pair clears, and lists the best clockings. Angles as in the file: 0 is straight up, positive to the rear.',
    '--mounting all tries every way to mount the caliper and the hub bolts, and ranks all candidates together.',
    '--unsplit names a set of bolts (hub or caliper) and a plate that must not lie between them, seen along the axis:',
    'upperLeg, lowerLeg, steeringArm, or the id of a plate on the upright.',
    'For each candidate, lists the bolts that cannot be reached in the steps of assembly.',
    '--swept also measures the candidates over all travel and lock, and ranks them by the result.',
    'Exit code 0: a candidate meets all requirements (with --swept: over all travel and lock); 1: none does, or a pair that',
    'no clocking changes misses its target, or a joint or damper binds, or no candidate has all bolts within reach;',
    '2: a result is unknown.',
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
  defaults: stepDefaults(FEWER_STEPS),
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
    const studyProgress = progressOn(context, 'Turning, pairs', shown);
    // Started first, so that the threads load while the corner is built.
    const pool = clockingThreads(threadsOf(typed));
    const study = await (async () => {
      const setups = await namingFile(file, async () =>
        mountedSetups(
          await setUp(design, { ...DEFAULT_SETTINGS, chordToleranceMm: settings.chordToleranceMm }),
          mountings,
        ),
      );
      return asUsageError(() =>
        studyMountings(setups, { wants, most, signal, pool, onProgress: studyProgress.update }),
      );
    })().finally(() => {
      studyProgress.end();
      pool.end();
    });
    const swept = typed.values.has('swept')
      ? await namingFile(file, () => sweptInOrder(study, wants, settings, typed, context))
      : undefined;
    const ranked = swept?.map(({ candidate }) => candidate) ?? study.candidates;
    const reachProgress = progressOn(context, 'Reaching bolts, candidates', shown);
    const reach = design.corner.parts.some(({ kind }) => kind === 'bolts')
      ? await namingFile(file, () =>
          reachAt(ranked, designOf(study), {
            chordToleranceMm: settings.chordToleranceMm,
            signal,
            onProgress: reachProgress.update,
          }),
        ).finally(reachProgress.end)
      : undefined;
    const limits = swept?.[0]?.findings.limits ?? limitsAtRideHeight(study);
    const fitted: FitReport = {
      ...study,
      mounted: study.mounted.map((one) => ({ ...one, toLowerArm: lowerArmDistance(one.setup) })),
      swept,
      reach,
      limits,
    };
    const figures = figuresIn(unitOf(typed, design.corner.unit));
    const written = applied && (await save(study, ranked, applied, signal));
    if (typed.values.has('json')) context.print(fitJson(design, fitted, await programVersion()).trimEnd());
    else {
      const { name, side } = design.corner;
      context.print(
        [
          visible(`${name}, front ${side} corner`),
          '',
          ...fitLines(fitted, figures),
          ...(written === undefined ? [] : ['', `Written: ${written}`]),
          '',
          GEOMETRY_ONLY,
        ].join('\n'),
      );
    }
    return exitOf(study, ranked[0], wants, { swept, reach, limits });
  },
};

/** Sweeps the candidates over travel and lock and ranks them by their worst margin. */
async function sweptInOrder(
  { mounted, candidates }: MountingsStudy,
  { leastMarginMm }: Wants,
  settings: SweepSettings,
  typed: Typed,
  context: Context,
): Promise<SweptCandidate<MountedCandidate>[]> {
  const progress = progressOn(context, 'Sweeping, candidates', typed.values.has('progress'));
  const pool = startThreadPool(threadsOf(typed));
  const swept = await sweepCandidates(candidates, designOf({ mounted }), {
    settings,
    signal: context.signal,
    measure: measurePairsBy(pool),
    onProgress: (done, total) => progress.update(Math.floor(done), total),
  }).finally(() => {
    progress.end();
    pool.end();
  });
  const unchanging = mounted.map(({ study }) => study.unchanging);
  return validFirst(swept, ({ candidate }) => candidate.mounting, unchanging, leastMarginMm);
}

/** Joints and dampers at ride height; the same for every mounting. */
function limitsAtRideHeight({ mounted: [{ setup }] }: MountingsStudy): LimitFinding[] {
  const zero = Float64Array.of(0);
  return limitFindings(limitsOf(setup.design.corner, setup.mechanism, zero, zero));
}

/** Returns a function that gives the design in the mounting of a candidate. */
const designOf =
  ({ mounted }: Pick<MountingsStudy, 'mounted'>) =>
  ({ mounting }: MountedCandidate): Design =>
    mounted[mounting].setup.design;

/** Runs `work`; a RangeError, which an impossible requirement throws, becomes a usage Failure. */
async function asUsageError<T>(work: () => Promise<T>): Promise<T> {
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
  const { source, assets } = clockedDesign(mounted[chosen.mounting].setup.design, chosen);
  await writeCorner(source, assets, path, signal);
  return path;
}

/**
 * Exit code by the best candidate and its mounting. Short also if a joint or damper binds or no candidate has all bolts
 * within reach; unknown if one of these is unknown.
 */
function exitOf(
  { mounted }: MountingsStudy,
  best: MountedCandidate | undefined,
  { leastMarginMm }: Wants,
  { swept, reach, limits }: Pick<FitReport, 'swept' | 'reach' | 'limits'>,
): ExitCode {
  if (best === undefined) return EXIT.short;
  const { unchanging } = mounted[best.mounting].study;
  if (shortfallMm(unchanging, leastMarginMm) > Number.MIN_VALUE) return EXIT.short;
  const isAny = (state: LimitFinding['state']) => limits.some((limit) => limit.state === state);
  if (isAny('binds')) return EXIT.short;
  const reached: readonly ExitCode[] = reach?.map(reachCode) ?? [EXIT.clear];
  const overTravel = swept === undefined ? EXIT.clear : sweptCode(swept[0], leastMarginMm);
  if (overTravel === EXIT.short || reached.every((code) => code === EXIT.short)) return EXIT.short;
  const isKnown = !Number.isNaN(unchanging.marginMm) && overTravel === EXIT.clear && !isAny('unknown');
  return isKnown && reached.includes(EXIT.clear) ? EXIT.clear : EXIT.unknown;
}

/** Exit code of a candidate over all travel and lock: short if its margin may be less than `leastMarginMm`. */
function sweptCode(
  { findings, worst, isProved }: SweptCandidate<MountedCandidate>,
  leastMarginMm = 0,
): ExitCode {
  const { counts, unreachableSteps } = findings;
  if (counts.touches > 0 || (worst !== undefined && knownMm(worst) < leastMarginMm)) return EXIT.short;
  return isProved && unreachableSteps.length === 0 ? EXIT.clear : EXIT.unknown;
}
