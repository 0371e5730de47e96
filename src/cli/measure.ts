import { sweepInProcess } from '../executors/inProcess.ts';
import { crewOfThreads } from '../executors/nodeThreads.ts';
import { contactsOf } from '../findings/contactsOf.ts';
import type { Findings } from '../findings/findings.ts';
import { findingsOf } from '../findings/findingsOf.ts';
import { alignmentAt } from '../mechanism/alignment.ts';
import { solvePose } from '../mechanism/mechanism.ts';
import type { Alignment } from '../mechanism/pose.ts';
import type { Checked } from '../report/reportInput.ts';
import type { MeasuredLimit } from '../sweep/limit.ts';
import { limitsOf } from '../sweep/limits.ts';
import { type PairContact, pairContact } from '../sweep/pairContact.ts';
import type { Proof } from '../sweep/prove.ts';
import type { SweepResult, SweepSettings } from '../sweep/result.ts';
import { DEFAULT_SETTINGS } from '../sweep/result.ts';
import { type Setup, setUp } from '../sweep/setUp.ts';
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

/** Most poses of one sweep: beyond it the results no longer fit in a usual computer's memory. */
const MOST_POSES = 100_000;

/** The settings that a person typed, defaults for the rest; of the steps, those of the command where it has its own. */
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
      `--travel-steps ${settings.travelSteps} by --steer-steps ${settings.steerSteps} are ${poses} poses; at most ${MOST_POSES} are allowed`,
    );
  return settings;
}

/** Undefined where not typed: one for each core. */
export const threadsOf = (typed: Typed): number | undefined =>
  typed.values.has('threads') ? wholeNumber(typed, 'threads', 1, 64, 1) : undefined;

export interface Measured extends Checked {
  setup: Setup;
}

/** Of the joints and dampers of a corner, at its steps and between them. */
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

/** Reads a corner file and builds all that it describes. */
export async function openCorner(file: string, settings: SweepSettings, { signal }: Context): Promise<Setup> {
  const design = await readCorner(file);
  const setup = await namingFile(file, () => setUp(design, settings));
  signal.throwIfAborted();
  return setup;
}

/** The whole sweep that a person asked for. */
export async function measureSweep(file: string, typed: Typed, context: Context): Promise<Measured> {
  const settings = settingsOf(typed);
  const { signal } = context;
  // Threads load while the corner is built.
  const crew = crewOfThreads(threadsOf(typed));
  try {
    const setup = await openCorner(file, settings, context);
    crew.take(setup);
    const shown = typed.values.has('progress');
    const sweeping = progressOn(context, 'Sweeping, steps of travel', shown);
    const [limits, result] = await Promise.all([
      crew.limits(),
      crew.sweep({ signal, onProgress: sweeping.update }),
    ]).finally(sweeping.end);
    const proving = progressOn(context, 'Proving between the steps, pairs', shown);
    const proof = await crew
      .prove(result, { signal, onProgress: proving.update, onCells: proving.cells })
      .finally(proving.end);
    return await measured(setup, limits, result, proof, async (findings) => {
      const meeting = progressOn(context, 'Measuring contact, pairs', shown);
      const { touches } = findings.counts;
      let done = 0;
      return contactsOf(findings, async (pair, { travelMm, steer }) => {
        const contact = await crew.contact(pair, travelMm, steer);
        meeting.update(++done, touches);
        return contact;
      }).finally(meeting.end);
    });
  } finally {
    crew.end();
  }
}

/** Every pair at ride height, straight ahead. */
export async function measureRideHeight(file: string, typed: Typed, context: Context): Promise<Measured> {
  const setup = await openCorner(file, settingsOf(typed), context);
  const zero = Float64Array.of(0);
  const settings = { ...setup.settings, travelSteps: 1, steerSteps: 1 };
  const ride: Setup = { ...setup, settings, travelMm: zero, steer: zero };
  return measured(ride, limitsOfSetup(ride), await sweepInProcess(ride, { signal: context.signal }));
}

export function alignmentAtRideHeight({ mechanism, tyre }: Setup): Alignment {
  const pose = solvePose(mechanism, 0, 0);
  if (pose.kind !== 'solved') throw new Error(`ride height is not reached: ${pose.reason}`);
  return alignmentAt(mechanism, pose, tyre);
}

export function whyUnreachable({ mechanism }: Setup, travelMm: number, steer: number): string | undefined {
  const pose = solvePose(mechanism, travelMm, steer);
  return pose.kind === 'unreachable' ? pose.reason : undefined;
}

/** The exit code of a verdict: contact outweighs what could not be told, which outweighs what is only tight. */
export function exitOf({ verdict }: Findings): ExitCode {
  if (verdict === 'clear') return EXIT.clear;
  return verdict === 'touches' || verdict === 'tight' ? EXIT.short : EXIT.unknown;
}
