import { sweepInProcess } from '../executors/inProcess.ts';
import { startThreadPool } from '../executors/nodeThreads.ts';
import { contactsOf } from '../findings/contactsOf.ts';
import type { Findings } from '../findings/findings.ts';
import { findingsOf } from '../findings/findingsOf.ts';
import { alignmentAt } from '../mechanism/alignment.ts';
import { solvePose } from '../mechanism/mechanism.ts';
import type { Alignment } from '../mechanism/pose.ts';
import { limitsOf } from '../proof/limits.ts';
import type { Proof } from '../proof/prove.ts';
import type { Checked } from '../report/reportInput.ts';
import type { MeasuredLimit } from '../sweep/limit.ts';
import { type PairContact, pairContact } from '../sweep/pairContact.ts';
import type { SweepResult, SweepSettings } from '../sweep/result.ts';
import { DEFAULT_SETTINGS } from '../sweep/result.ts';
import { buildCorner, type Setup, setUp } from '../sweep/setUp.ts';
import type { Context } from './context.ts';
import { EXIT, type ExitCode, Failure } from './exit.ts';
import { lengthMm, type OptionName, type Typed, wholeNumber } from './options.ts';
import { progressOn } from './progress.ts';
import { namingFile, readCorner } from './readCorner.ts';

export const MESH_OPTIONS: readonly OptionName[] = ['chord', 'limit'];
export const SWEEP_OPTIONS: readonly OptionName[] = [
  'travel-steps',
  'steer-steps',
  ...MESH_OPTIONS,
  'threads',
  'progress',
];

/** Largest number of poses in one sweep: the results of more do not fit in a usual computer's memory. */
const MOST_POSES = 100_000;

/** The settings of the command line, defaults for the rest. `steps`: the command's own default steps. */
export function settingsOf(
  typed: Typed,
  steps: Pick<SweepSettings, 'travelSteps' | 'steerSteps'> = DEFAULT_SETTINGS,
): SweepSettings {
  const settings: SweepSettings = {
    travelSteps: wholeNumber(typed, 'travel-steps', 3, 2001, steps.travelSteps),
    steerSteps: wholeNumber(typed, 'steer-steps', 3, 2001, steps.steerSteps),
    limitMm: lengthMm(typed, 'limit', 1, 1000, DEFAULT_SETTINGS.limitMm),
    chordToleranceMm: lengthMm(typed, 'chord', 0.005, 2, DEFAULT_SETTINGS.chordToleranceMm),
  };
  const poses = settings.travelSteps * settings.steerSteps;
  if (poses > MOST_POSES)
    throw new Failure(
      EXIT.usage,
      `--travel-steps ${settings.travelSteps} by --steer-steps ${settings.steerSteps} gives ${poses} poses. Give at most ${MOST_POSES}.`,
    );
  return settings;
}

/** Default numbers of steps as the help shows them, for a command that has its own. */
export const stepDefaults = ({
  travelSteps,
  steerSteps,
}: Pick<SweepSettings, 'travelSteps' | 'steerSteps'>) => ({
  'travel-steps': `${travelSteps}`,
  'steer-steps': `${steerSteps}`,
});

/** Number of threads; undefined if not typed (then one for each core). */
export const threadsOf = (typed: Typed): number | undefined =>
  typed.values.has('threads') ? wholeNumber(typed, 'threads', 1, 64, 1) : undefined;

export interface Measured extends Checked {
  setup: Setup;
}

/** Limits of the joints and dampers of a corner, at its steps and between them. */
const limitsOfSetup = ({ design, mechanism, travelMm, steer }: Setup): MeasuredLimit[] =>
  limitsOf(design.corner, mechanism, travelMm, steer);

async function measured(
  setup: Setup,
  limits: readonly MeasuredLimit[],
  result: SweepResult,
  proof?: Proof,
  contactsIn: (findings: Findings) => Promise<ReadonlyMap<number, PairContact>> = (findings) =>
    contactsOf(findings, (pair, worst) => pairContact(setup, pair, worst)),
): Promise<Measured> {
  const findings = findingsOf(result, limits, proof);
  const { design, solids } = setup;
  return {
    design,
    solids,
    result,
    findings,
    contacts: await contactsIn(findings),
    setup,
  };
}

/** Reads a corner file and builds its parts and mechanism. */
export async function openCorner(file: string, settings: SweepSettings, { signal }: Context): Promise<Setup> {
  const design = await readCorner(file);
  const setup = await namingFile(file, () => setUp(design, settings));
  signal.throwIfAborted();
  return setup;
}

/** Sweeps a corner, proves the poses between the steps and measures the contacts found. */
export async function measureSweep(file: string, typed: Typed, context: Context): Promise<Measured> {
  const settings = settingsOf(typed);
  const { signal } = context;
  // Started first, so that the threads load while the corner is built.
  const pool = startThreadPool(threadsOf(typed));
  try {
    const built = await namingFile(file, async () => buildCorner(await readCorner(file), settings));
    signal.throwIfAborted();
    const setup = await pool.prepare(built);
    signal.throwIfAborted();
    const shown = typed.values.has('progress');
    const sweepProgress = progressOn(context, 'Sweeping, steps of travel', shown);
    const [limits, result] = await Promise.all([
      pool.limits(),
      pool.sweep({ signal, onProgress: sweepProgress.update }),
    ]).finally(sweepProgress.end);
    const proofProgress = progressOn(context, 'Proving between the steps, pairs', shown);
    const proof = await pool
      .prove(result, { signal, onProgress: proofProgress.update, onCells: proofProgress.cells })
      .finally(proofProgress.end);
    return await measured(setup, limits, result, proof, async (findings) => {
      const contactProgress = progressOn(context, 'Measuring contact, pairs', shown);
      const { touches } = findings.counts;
      let done = 0;
      return contactsOf(findings, async (pair, { travelMm, steer }) => {
        const contact = await pool.contact(pair, travelMm, steer);
        contactProgress.update(++done, touches);
        return contact;
      }).finally(contactProgress.end);
    });
  } finally {
    pool.end();
  }
}

/** Measures every pair at ride height, straight ahead. */
export async function measureRideHeight(file: string, typed: Typed, context: Context): Promise<Measured> {
  const setup = await openCorner(file, settingsOf(typed), context);
  const zero = Float64Array.of(0);
  const settings = { ...setup.settings, travelSteps: 1, steerSteps: 1 };
  const ride: Setup = { ...setup, settings, travelMm: zero, steer: zero };
  return measured(ride, limitsOfSetup(ride), await sweepInProcess(ride, { signal: context.signal }));
}

export function alignmentAtRideHeight({ mechanism, tyre }: Setup): Alignment {
  const pose = solvePose(mechanism, 0, 0);
  if (pose.kind !== 'solved') throw new Error(`the suspension does not reach ride height: ${pose.reason}`);
  return alignmentAt(mechanism, pose, tyre);
}

export function whyUnreachable({ mechanism }: Setup, travelMm: number, steer: number): string | undefined {
  const pose = solvePose(mechanism, travelMm, steer);
  return pose.kind === 'unreachable' ? pose.reason : undefined;
}

/** The exit code of a verdict. Contact outweighs an unknown result, which outweighs a tight pair. */
export function exitOf({ verdict }: Findings): ExitCode {
  if (verdict === 'clear') return EXIT.clear;
  return verdict === 'touches' || verdict === 'tight' ? EXIT.short : EXIT.unknown;
}
