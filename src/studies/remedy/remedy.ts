/**
 * Ways out of a hit: for each pair that touches or is tight, the single values of the file that clear it with the least
 * change, and pairs of values if no single one does.
 *
 * Method: the slopes of the sensitivity study show which values can clear the pair within their range, and about how far
 * they must go. Values on the step that a shop can make or buy are then tried: the corner is built, and the pair is swept
 * and proved, until one value clears and the one before it does not. That change is verified: everything it affects is
 * swept, proved and checked. A change that another check refuses is not proposed, but listed with the reasons.
 */
import type { Design } from '../../design/design.ts';
import { isFixed } from '../../design/fixed.ts';
import { withHeldHub } from '../../solids/heldHub.ts';
import { pairId } from '../../sweep/pair.ts';
import { type Setup, SetupMemory, setUp } from '../../sweep/setUp.ts';
import { measureRatesHere, studiedValues } from '../sensitivity/measureRates.ts';
import { type NearPair, nearPair } from '../sensitivity/posedPair.ts';
import type { Rate } from '../sensitivity/rate.ts';
import { NO_LIMITS, type PairStudyOptions, pairBetween, type SolidIds } from '../sensitivity/sensitivity.ts';
import { type StudiedInput, type StudiedValue, studiedInputs } from '../sensitivity/studiedInputs.ts';
import { sweepAndProveHere } from '../vary/measurePairs.ts';
import { type PairTrial, pairFails, pairTrials } from '../vary/pairTrial.ts';
import { Trials } from '../vary/trials.ts';
import { type AlignmentFigures, alignmentFigures } from './alignmentFigures.ts';
import { Finder, type Refused, type Remedy } from './finder.ts';
import { ranked } from './ranking.ts';
import { Verifier } from './verify.ts';

/** A pair that touches or is tight, with its remedies. */
export interface Hit {
  before: PairTrial;
  /** Verified changes, the best first: see `ranked`. Of two values only if no single value is left. */
  remedies: readonly Remedy[];
  /** Changes that clear the pair and are refused by another check, and ranges that end where nothing can be built. */
  refused: readonly Refused[];
  /** False if the depth of the overlap is not known, so that no slope is: each value was tried at the end of its range. */
  hasSlopes: boolean;
}

export interface Remedies {
  setup: Setup;
  /** In the order of the findings: the worst first. */
  hits: readonly Hit[];
  /** The pair that was named, if it neither touches nor is tight. */
  noHit: PairTrial | undefined;
  /** The pairs, or the one named, whose clearance is not known: they may touch. */
  unknown: readonly PairTrial[];
  alignment: AlignmentFigures;
  /** Free values without a slope on one side, because the corner cannot be built one step beside them. */
  notBuilt: readonly StudiedValue[];
  /** Number of values that may change, and of those that are fixed. */
  freeCount: number;
  fixedCount: number;
}

export interface RemedyOptions extends PairStudyOptions {
  /** Finds remedies for this pair alone; by default for all that fail. */
  between?: SolidIds | undefined;
}

/**
 * Finds the remedies of a corner. The hub keeps its position, unless the file says that it follows the wheel: see
 * `withHeldHub`. Fixed values (`isFixed`) are left alone.
 *
 * Throws DesignProblems if the corner cannot be built, and a RangeError if `between` names no pair that is measured.
 * Rejects with the signal's reason when cancelled.
 */
export async function remediesOf(
  design: Design,
  {
    settings,
    between,
    measure = sweepAndProveHere,
    rates: measureRates = measureRatesHere,
    signal,
    onProgress,
  }: RemedyOptions,
): Promise<Remedies> {
  const held = withHeldHub(design);
  const memory = new SetupMemory();
  const setup = await setUp(held, settings, memory);
  const { result, findings } = await measure(setup, NO_LIMITS, signal);
  const base = pairTrials(setup, findings);
  const named = between && pairBetween(setup, between);
  const chosen = findings.pairs.filter(({ pair }) => named === undefined || setup.pairs[pair] === named);
  const hits = chosen.filter(({ pair }) => pairFails(base[pair]));
  const near = new Map(hits.map((finding) => [finding, nearPair(setup, finding, result)]));
  const measured = [...near.values()].filter((pair) => pair !== undefined);

  const all = studiedInputs(held);
  const free = all.filter(({ field }) => !isFixed(held.source, field.path));
  const studied = measured.length === 0 ? [] : free;
  const rates = new Map<NearPair, [StudiedInput, Rate][]>(measured.map((pair) => [pair, []]));
  let [done, total] = [0, studied.length];
  const ofValues = await measureRates({
    design: held,
    settings,
    inputs: studied,
    pairs: measured,
    signal,
    onDone: (count) => {
      done = count;
      onProgress?.(done, total);
    },
  });
  const notBuilt = studiedValues(studied, ofValues).filter(({ problems }) => problems.length > 0);
  for (const [k, ofValue] of ofValues.entries())
    for (const [pair, rate] of ofValue.rates) rates.get(pair)?.push([studied[k], rate]);

  const trials = Trials.from(setup, memory, findings, async (...given) => (await measure(...given)).findings);
  const alignment = alignmentFigures(held.corner);
  const finder = new Finder(held, trials, new Verifier(trials, held.corner, base), {
    signal,
    onChosen: (count) => {
      total += count;
    },
    onDone: () => onProgress?.(++done, total),
  });
  const found: Hit[] = [];
  for (const finding of hits) {
    const pair = near.get(finding);
    const before = base[finding.pair];
    const { remedies, refused } =
      pair === undefined
        ? await finder.findWithoutSlopes(pairId(setup.solids, setup.pairs[finding.pair]), before, free)
        : await finder.find(pair.id, before, rates.get(pair) ?? []);
    found.push({ before, remedies: ranked(remedies, alignment), refused, hasSlopes: pair !== undefined });
  }
  return {
    setup,
    hits: found,
    noHit: named !== undefined && hits.length === 0 ? base[chosen[0].pair] : undefined,
    unknown: chosen.map(({ pair }) => base[pair]).filter(({ state }) => state === 'unknown'),
    alignment,
    notBuilt,
    freeCount: free.length,
    fixedCount: all.length - free.length,
  };
}
