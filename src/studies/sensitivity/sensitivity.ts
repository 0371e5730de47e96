/**
 * How the least clearance of each pair changes with each length and angle of the file.
 *
 * Method: rebuild and measure (`Variants`). The corner is built with the value one step lower and one step higher, and
 * each pair that changes is measured at its worst pose, and at the other poses that may become its worst. By the envelope
 * theorem the worst pose need not be searched again: inside the travel a small move of it changes the clearance only in
 * the second order, and at an end of travel or steering it stays at that end.
 *
 * Considered: the contact normal times the motion of the two nearest points. It is exact for a body that only moves, but
 * gives nothing for a body whose shape changes. A test uses it as a check.
 */
import type { Design } from '../../design/design.ts';
import { suggest } from '../../design/suggest.ts';
import { yieldToOthers } from '../../executors/yieldToOthers.ts';
import type { Findings, PairFinding } from '../../findings/findings.ts';
import { withHeldHub } from '../../solids/heldHub.ts';
import type { SweepSettings } from '../../sweep/result.ts';
import { type Setup, SetupMemory, setUp } from '../../sweep/setUp.ts';
import { type SweepAndProve, sweepAndProveHere } from '../vary/measurePairs.ts';
import { type Rate, slopeSize } from './rate.ts';
import { type StudiedValue, studiedInputs } from './studiedInputs.ts';
import { type NearPair, Variants } from './variants.ts';

/** Effect of a value on a pair: mm of clearance per mm or degree. */
export interface Effect {
  value: StudiedValue;
  rate: Rate;
}

/** A pair that is not far, with the effect of each value that changes it. */
export interface PairSensitivity extends Pick<NearPair, 'finding' | 'worst'> {
  /** The largest slope first. */
  effects: readonly Effect[];
}

export interface Sensitivity {
  setup: Setup;
  values: readonly StudiedValue[];
  /** In the order of the findings: the least margin first. */
  pairs: readonly PairSensitivity[];
  /** Pairs whose clearance or depth is not known, so that its change is not known either. */
  unknown: readonly PairFinding[];
}

export interface SensitivityOptions {
  settings: SweepSettings;
  /** Ids of the two solids of a pair, to study that pair alone; by default all pairs that are not far. */
  between?: readonly [string, string];
  /** By default, in the calling thread. */
  measure?: SweepAndProve;
  /** Cancels the study, which then rejects with the signal's reason. */
  signal?: AbortSignal;
  /** Number of values done and of all values. */
  onProgress?: (done: number, total: number) => void;
}

/** Limits of joints and dampers are not clearances. */
const NO_LIMITS = [] as const;

/**
 * Measures the effect of every length and angle of a corner on every pair that is not far. The hub keeps its position,
 * unless the file says that it follows the wheel: see `withHeldHub`. Values of allowances and targets are left out: they
 * change the margin and not the clearance.
 *
 * Throws DesignProblems if the corner cannot be built, and a RangeError if `between` names no pair that is measured.
 * Rejects with the signal's reason when cancelled.
 */
export async function sensitivityOf(
  design: Design,
  { settings, between, measure = sweepAndProveHere, signal, onProgress }: SensitivityOptions,
): Promise<Sensitivity> {
  const held = withHeldHub(design);
  const memory = new SetupMemory();
  const setup = await setUp(held, settings, memory);
  const { result, findings } = await measure(setup, NO_LIMITS, signal);
  const chosen = between === undefined ? findings.pairs : [findingBetween(setup, findings, between)];
  const variants = new Variants(setup, memory, result);
  const near: NearPair[] = [];
  const unknown: PairFinding[] = [];
  for (const finding of chosen) {
    if (finding.state === 'far') continue;
    const pair = variants.nearPair(finding);
    if (pair === undefined) unknown.push(finding);
    else near.push(pair);
  }
  const values: StudiedValue[] = [];
  const effects = new Map<NearPair, Effect[]>(near.map((pair) => [pair, []]));
  const inputs = near.length === 0 ? [] : studiedInputs(design);
  for (const [k, input] of inputs.entries()) {
    signal?.throwIfAborted();
    const { value, rates } = await variants.study(input, near);
    values.push(value);
    for (const [pair, rate] of rates) effects.get(pair)?.push({ value, rate });
    onProgress?.(k + 1, inputs.length);
    await yieldToOthers();
  }
  const pairs = near.map((pair) => ({
    finding: pair.finding,
    worst: pair.worst,
    effects: (effects.get(pair) ?? []).sort((one, other) => slopeSize(other.rate) - slopeSize(one.rate)),
  }));
  return { setup, values, pairs, unknown };
}

/**
 * The finding of the pair of two solids, by their ids in either order. Throws a RangeError if there is no such pair, or it
 * is not measured.
 */
export function findingBetween(
  { solids, pairs }: Setup,
  findings: Findings,
  [one, other]: readonly [string, string],
): PairFinding {
  const found = findings.pairs.find(({ pair }) => {
    const ids = [solids[pairs[pair].a].id, solids[pairs[pair].b].id];
    return ids.includes(one) && ids.includes(other) && one !== other;
  });
  if (found !== undefined) return found;
  const unknown = [one, other].find((id) => !solids.some((solid) => solid.id === id));
  if (unknown === undefined) throw new RangeError(`${one} and ${other} are not measured against each other`);
  const ids = solids.map(({ id }) => id);
  throw new RangeError(
    `"${unknown}" is not a part of this corner.${suggest(unknown, ids)} Parts: ${ids.join(', ')}`,
  );
}
