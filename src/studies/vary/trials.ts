import type { Design } from '../../design/design.ts';
import { parseDesign } from '../../design/parse.ts';
import { DesignProblems, type Problem } from '../../design/problem.ts';
import type { Corner } from '../../design/schema.ts';
import { type LimitFinding, limitFindings } from '../../findings/limitFindings.ts';
import { pairId } from '../../sweep/pair.ts';
import type { SweepSettings } from '../../sweep/result.ts';
import { type Setup, SetupMemory, setUp } from '../../sweep/setUp.ts';
import { LimitMemory } from '../limitMemory.ts';
import { type MeasurePairs, measureFitPairs, measurePairsHere, withPairs } from './measurePairs.ts';
import { motionKey, pairKey } from './pairKey.ts';
import { type PairTrial, pairFails, pairTrials } from './pairTrial.ts';

/** `unknown`: nothing is known to fail, and something could not be told. */
export type Verdict = 'fits' | 'fails' | 'unknown';

/** What came of a variant of a corner. */
export interface Tried {
  verdict: Verdict;
  /** Why it cannot be built, which is a failure; empty where it can. */
  problems: readonly Problem[];
  /** As tried: its poses are those of its own travel and steering. Undefined if it cannot be built. */
  corner?: Corner;
  /** The pairs concerned: those that fail first, then unknown ones, then by what is left, least first; clamped pairs that clear last. */
  pairs: readonly PairTrial[];
  /** The limits of joints and dampers concerned: what binds first, then unknown ones, then clear ones. */
  limits: readonly LimitFinding[];
  /** Whether the suspension locks out somewhere in its travel and steering, where pairs that move and limits are not known. */
  locksOut: boolean;
}

/** A variant that was built and of which all that differs from the corner of the file is measured. */
export interface Attempt {
  problems: readonly Problem[];
  /** Undefined if it cannot be built. */
  corner?: Corner;
  /** Of every pair, what its answer goes by. */
  keys: ReadonlyMap<string, string>;
  /** Every limit of its joints and dampers. */
  limits: readonly LimitFinding[];
  /** Whether the suspension is not shown to reach every pose. */
  locksOut: boolean;
}

/**
 * Tries variants of one corner. Each is built anew, as far as it differs from the one before; pairs are measured where
 * no variant had the very same pair before. The pairs concerned are those that differ from the corner of the file in at
 * least one variant, and those of a part that is judged whole: all others have the same answer whatever is tried, and are
 * left out. The limits concerned are those that differ likewise, and those that bind in the corner of the file: one that
 * binds at every value leaves nothing that fits.
 */
export class Trials {
  private readonly memory: SetupMemory;
  private readonly base: Setup;
  private readonly baseKeys: ReadonlyMap<string, string>;
  private readonly measure: MeasurePairs;
  private readonly known = new Map<string, PairTrial>();
  private readonly concerned = new Set<string>();
  private readonly limitMemory = new LimitMemory();
  /** Limits of the corner of the file, and the answer of each. */
  private readonly baseLimits: readonly LimitFinding[];
  private readonly answerTextBase: ReadonlyMap<string, string>;
  private readonly concernedLimits: Set<string>;

  private constructor(memory: SetupMemory, base: Setup, measure: MeasurePairs) {
    this.memory = memory;
    this.base = base;
    this.baseKeys = keysOf(base, motionKey(base));
    this.measure = measure;
    this.baseLimits = limitFindings(this.limitMemory.of(base).limits);
    this.answerTextBase = new Map(this.baseLimits.map((limit) => [limitId(limit), answerText(limit)]));
    this.concernedLimits = new Set(this.baseLimits.filter(({ state }) => state === 'binds').map(limitId));
  }

  /** Throws DesignProblems where the corner of the file itself cannot be built. */
  static async of(
    design: Design,
    settings: SweepSettings,
    measure: MeasurePairs = measurePairsHere,
  ): Promise<Trials> {
    const memory = new SetupMemory();
    return new Trials(memory, await setUp(design, settings, memory), measure);
  }

  /** Checked pairs of the corner of the file. */
  get pairCount(): number {
    return this.base.pairs.length;
  }

  /** How many pairs are concerned by what was tried so far. */
  get concernedCount(): number {
    return this.concerned.size;
  }

  /** Limits of joints and dampers of the corner of the file. */
  get limitCount(): number {
    return this.baseLimits.length;
  }

  /** How many limits are concerned by what was tried so far. */
  get concernedLimitCount(): number {
    return this.concernedLimits.size;
  }

  /** Limits that are unknown in the corner of the file, and that nothing tried so far changes. */
  get unknownLimits(): LimitFinding[] {
    return this.baseLimits.filter(
      (limit) => limit.state === 'unknown' && !this.concernedLimits.has(limitId(limit)),
    );
  }

  /** Concerns all pairs of a part of the file, whether any variant changes them or not. */
  judgePart(partIndex: number): void {
    const { solids, pairs } = this.base;
    for (const pair of pairs)
      if ([pair.a, pair.b].some((solid) => solids[solid].partIndex === partIndex))
        this.concerned.add(pairId(this.base.solids, pair));
  }

  /** Builds a file with a change, as JSON, and measures what it changes. Rejects with the signal's reason when cancelled. */
  async attempt(source: unknown, signal?: AbortSignal): Promise<Attempt> {
    signal?.throwIfAborted();
    const setup = await this.build(source);
    if ('problems' in setup)
      return { problems: setup.problems, keys: new Map(), limits: [], locksOut: false };
    const keys = keysOf(setup, motionKey(setup));
    const changed = [...keys.keys()].filter((id) => keys.get(id) !== this.baseKeys.get(id));
    for (const id of changed) this.concerned.add(id);
    await this.learn(setup, keys, changed, signal);
    const { limits: measured, locksOut } = this.limitMemory.of(setup);
    const limits = limitFindings(measured);
    for (const limit of limits)
      if (answerText(limit) !== this.answerTextBase.get(limitId(limit)))
        this.concernedLimits.add(limitId(limit));
    return { problems: [], corner: setup.design.corner, keys, limits, locksOut };
  }

  /** What came of an attempt, in all pairs and limits that are concerned by now. */
  async judge(attempt: Attempt, signal?: AbortSignal): Promise<Tried> {
    const { problems, corner, keys } = attempt;
    if (corner === undefined) return { verdict: 'fails', problems, pairs: [], limits: [], locksOut: false };
    const ids = [...this.concerned].filter((id) => keys.has(id));
    const asInFile = ids.filter((id) => keys.get(id) === this.baseKeys.get(id));
    await this.learn(this.base, this.baseKeys, asInFile, signal);
    const pairs = ids.map((id) => this.known.get(keys.get(id) as string) as PairTrial).sort(worstFirst);
    const limits = attempt.limits.filter((limit) => this.concernedLimits.has(limitId(limit)));
    const locksOut = attempt.locksOut && (limits.length > 0 || pairs.some(({ moves }) => moves));
    const fails = pairs.some(pairFails) || limits.some(({ state }) => state === 'binds');
    const unknown = locksOut || [...pairs, ...limits].some(({ state }) => state === 'unknown');
    const verdict = fails ? 'fails' : unknown ? 'unknown' : 'fits';
    return { verdict, problems, corner, pairs, limits, locksOut };
  }

  private async build(source: unknown): Promise<Setup | { problems: readonly Problem[] }> {
    const read = parseDesign(JSON.stringify(source));
    if (read.kind === 'bad') return { problems: read.problems };
    try {
      return await setUp(read.design, this.base.settings, this.memory);
    } catch (error) {
      if (error instanceof DesignProblems) return { problems: error.problems };
      throw error;
    }
  }

  /** Measures those of some pairs of a corner that are not known yet. */
  private async learn(
    setup: Setup,
    keys: ReadonlyMap<string, string>,
    ids: readonly string[],
    signal: AbortSignal | undefined,
  ): Promise<void> {
    const wanted = new Set(ids.filter((id) => !this.known.has(keys.get(id) as string)));
    const open = setup.pairs.flatMap((pair, p) => (wanted.has(pairId(setup.solids, pair)) ? [p] : []));
    for (const moves of [false, true]) {
      const chosen = withPairs(
        setup,
        open.filter((p) => setup.pairs[p].moves === moves),
      );
      if (chosen.pairs.length === 0) continue;
      const findings = moves ? await this.measure(chosen, NO_LIMITS, signal) : await measureFitPairs(chosen);
      signal?.throwIfAborted();
      pairTrials(chosen, findings).forEach((trial, p) => {
        this.known.set(keys.get(pairId(chosen.solids, chosen.pairs[p])) as string, trial);
      });
    }
  }
}

function keysOf(setup: Setup, motion: string): Map<string, string> {
  return new Map(setup.pairs.map((pair, p) => [pairId(setup.solids, pair), pairKey(setup, p, motion)]));
}

/** Some of a corner's pairs are measured by themselves; limits are checked beside them. */
const NO_LIMITS = [] as const;

/** No variant moves a part in the list of parts. */
const limitId = ({ kind, partIndex }: LimitFinding): string => `${kind} ${partIndex}`;

/** The answer of a limit as text, to compare answers. */
const answerText = ({ usedAtSteps: _, ...answer }: LimitFinding): string => JSON.stringify(answer);

/** Parts that are bolted together must only not meet: what is left beside their clamped faces is no daylight to win. */
const rank = (trial: PairTrial): number => {
  if (pairFails(trial)) return 0;
  if (trial.state === 'unknown') return 1;
  return !trial.moves && trial.targetMm === 0 ? 3 : 2;
};

function worstFirst(one: PairTrial, other: PairTrial): number {
  if (rank(one) !== rank(other)) return rank(one) - rank(other);
  if (one.leastMarginMm === other.leastMarginMm) return 0;
  // What is not known is compared with nothing.
  return one.leastMarginMm - other.leastMarginMm || 0;
}
