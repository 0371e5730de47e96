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
import type { PartEntry } from '../../design/schema.ts';
import { suggest } from '../../design/suggest.ts';
import type { Findings, PairFinding } from '../../findings/findings.ts';
import type { SolidChoice } from '../../solids/catalogue.ts';
import { withHeldHub } from '../../solids/heldHub.ts';
import type { Pair } from '../../sweep/pair.ts';
import type { SweepSettings } from '../../sweep/result.ts';
import { type Built, buildCorner, type Setup, SetupMemory, withBodies } from '../../sweep/setUp.ts';
import { type SweepAndProve, sweepAndProveHere } from '../vary/measurePairs.ts';
import { type MeasureRates, measureRatesHere, studiedValues } from './measureRates.ts';
import { type NearPair, nearPair } from './posedPair.ts';
import { type Rate, slopeSize } from './rate.ts';
import { type StudiedValue, studiedInputs } from './studiedInputs.ts';

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
  /** Of all pairs, without limits of joints and dampers. */
  findings: Findings;
  values: readonly StudiedValue[];
  /** In the order of the findings: the least margin first. */
  pairs: readonly PairSensitivity[];
  /** Pairs whose clearance or depth is not known, so that its change is not known either. */
  unknown: readonly PairFinding[];
  /** The pairs that were studied; undefined if all were. */
  among: readonly SolidIds[] | undefined;
}

/** The ids of the two solids of a pair. */
export type SolidIds = readonly [string, string];

/** Options of a study that changes values and measures pairs. */
export interface PairStudyOptions {
  settings: SweepSettings;
  /** By default, in the calling thread. */
  measure?: SweepAndProve;
  /** Measures the rates; by default in the calling thread. */
  rates?: MeasureRates | undefined;
  /** Cancels the study, which then rejects with the signal's reason. */
  signal?: AbortSignal;
  /** Number of values or changes done, and of all known so far. */
  onProgress?: (done: number, total: number) => void;
}

export interface SensitivityOptions extends PairStudyOptions {
  /** Studies these pairs alone; by default all. */
  among?: readonly SolidIds[] | undefined;
}

/** Limits of joints and dampers are not clearances. */
export const NO_LIMITS = [] as const;

/**
 * Measures the effect of every length and angle of a corner on every pair that is not far. The hub keeps its position,
 * unless the file says that it follows the wheel: see `withHeldHub`. Values of allowances and targets are left out: they
 * change the margin and not the clearance. If only some pairs are studied, changed corners have the parts of those pairs
 * only, so that problems with other parts are not found.
 *
 * Throws DesignProblems if the corner cannot be built, and a RangeError if `among` has a pair that is not measured.
 * Rejects with the signal's reason when cancelled.
 */
export async function sensitivityOf(
  design: Design,
  {
    settings,
    among,
    measure = sweepAndProveHere,
    rates: measureRates = measureRatesHere,
    signal,
    onProgress,
  }: SensitivityOptions,
): Promise<Sensitivity> {
  const isWanted = among && partsOf(design, among.flat());
  const built = await buildCorner(withHeldHub(design), settings, new SetupMemory(), {
    measuredOnly: true,
    ...(isWanted && { isWanted }),
  });
  const pairs = among?.map((ids) => pairBetween(built, ids)) ?? built.pairs;
  const setup = withBodies({ ...built, pairs });
  const { result, findings } = await measure(setup, NO_LIMITS, signal);
  const near: NearPair[] = [];
  const unknown: PairFinding[] = [];
  for (const finding of findings.pairs) {
    if (finding.state === 'far') continue;
    const pair = nearPair(setup, finding, result);
    if (pair === undefined) unknown.push(finding);
    else near.push(pair);
  }
  const inputs = studiedInputs(design);
  const rates = await measureRates({
    design: setup.design,
    settings,
    inputs,
    pairs: near,
    signal,
    onDone: (done) => onProgress?.(done, inputs.length),
  });
  const values = studiedValues(inputs, rates);
  const effects = new Map<NearPair, Effect[]>(near.map((pair) => [pair, []]));
  for (const [k, ofValue] of rates.entries())
    for (const [pair, rate] of ofValue.rates) effects.get(pair)?.push({ value: values[k], rate });
  const studied = near.map((pair) => ({
    finding: pair.finding,
    worst: pair.worst,
    effects: (effects.get(pair) ?? []).sort((one, other) => slopeSize(other.rate) - slopeSize(one.rate)),
  }));
  return { setup, findings, values, pairs: studied, unknown, among };
}

/** Selects the parts of some solids; undefined if a solid is of no part, so that all are needed to name them. */
function partsOf({ corner }: Design, ids: readonly string[]): SolidChoice['isWanted'] {
  const holds = ({ id }: PartEntry, solid: string) => solid === id || solid.startsWith(`${id}.`);
  if (!ids.every((solid) => corner.parts.some((entry) => holds(entry, solid)))) return undefined;
  return (entry) => ids.some((solid) => holds(entry, solid));
}

/**
 * The pair of two solids, by their ids in either order. Throws a RangeError if there is no such pair, or it is not measured.
 */
export function pairBetween({ solids, pairs }: Built, [one, other]: SolidIds): Pair {
  const found = pairs.find(({ a, b }) => {
    const ids = [solids[a].id, solids[b].id];
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
