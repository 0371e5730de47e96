import type { Design } from '../../design/design.ts';
import { parseDesign } from '../../design/parse.ts';
import type { Corner } from '../../design/schema.ts';
import type { Findings } from '../../findings/findings.ts';
import { type LimitFinding, limitFindings } from '../../findings/limitFindings.ts';
import { pairId } from '../../sweep/pair.ts';
import type { SweepSettings } from '../../sweep/result.ts';
import { type Built, buildCorner, type Setup, SetupMemory, setUp, withBodies } from '../../sweep/setUp.ts';
import { DesignProblems, type Problem } from '../../units/problem.ts';
import { LimitMemory } from '../limitMemory.ts';
import { type MeasurePairs, measureFitPairs, measurePairsHere, withPairs } from './measurePairs.ts';
import { motionKey, pairKey } from './pairKey.ts';
import { type PairTrial, pairFails, pairTrials } from './pairTrial.ts';
import { withoutMeasuredTo } from './variedField.ts';

/** `unknown`: nothing is known to fail, but some results are unknown. */
export type Verdict = 'fits' | 'fails' | 'unknown';

/** The result of a variant of a corner. */
export interface TrialResult {
  verdict: Verdict;
  /** Reasons why it cannot be built, which is a failure; empty if it can. */
  problems: readonly Problem[];
  /** The variant: its poses are those of its own travel and steering. Undefined if it cannot be built. */
  corner?: Corner;
  /**
   * The affected pairs: failing ones first, then unknown ones, then by margin with the smallest first; clamped pairs
   * that clear come last.
   */
  pairs: readonly PairTrial[];
  /** The affected limits of joints and dampers: binding ones first, then unknown ones, then clear ones. */
  limits: readonly LimitFinding[];
  /**
   * Whether the suspension locks out within its travel and steering; moving pairs and limits are then unknown there.
   */
  locksOut: boolean;
}

/** A built variant with measurements of everything that differs from the file's corner. */
export interface Attempt {
  problems: readonly Problem[];
  /** Undefined if it cannot be built. */
  corner?: Corner;
  /** The key of every pair's result. */
  keys: ReadonlyMap<string, string>;
  /** Every limit of its joints and dampers. */
  limits: readonly LimitFinding[];
  /** Whether some pose is not shown to be reached. */
  locksOut: boolean;
}

/** A pair whose result in a variant may differ from that in the file's corner. */
export interface PairChange {
  before: PairTrial;
  after: PairTrial;
}

/**
 * Checks variants of one corner. Each variant reuses the parts of the one before that do not change, and a pair is
 * measured once for each key. Affected pairs are those that differ from the file's corner in at least one variant,
 * and those of a part that is checked as a whole. All other pairs have the same result in every variant and are left
 * out. Affected limits are those that differ, and those that bind in the file's corner: if one binds at every value,
 * no value fits.
 */
export class Trials {
  private readonly memory: SetupMemory;
  private readonly base: Setup;
  private readonly baseKeys: ReadonlyMap<string, string>;
  private readonly measure: MeasurePairs;
  private readonly results = new Map<string, PairTrial>();
  private readonly affected = new Set<string>();
  private readonly limitMemory = new LimitMemory();
  /** Limits of the file's corner, and the result of each as text. */
  private readonly baseLimits: readonly LimitFinding[];
  private readonly baseResultTexts: ReadonlyMap<string, string>;
  private readonly affectedLimits: Set<string>;

  private constructor(memory: SetupMemory, base: Setup, measure: MeasurePairs) {
    this.memory = memory;
    this.base = base;
    this.baseKeys = keysOf(base, motionKey(base));
    this.measure = measure;
    this.baseLimits = limitFindings(this.limitMemory.of(base).limits);
    this.baseResultTexts = new Map(this.baseLimits.map((limit) => [limitId(limit), resultText(limit)]));
    this.affectedLimits = new Set(this.baseLimits.filter(({ state }) => state === 'binds').map(limitId));
  }

  /** Throws DesignProblems if the file's corner cannot be built. */
  static async of(
    design: Design,
    settings: SweepSettings,
    measure: MeasurePairs = measurePairsHere,
  ): Promise<Trials> {
    const memory = new SetupMemory();
    return new Trials(memory, await setUp(design, settings, memory), measure);
  }

  /** As `of`, for a corner that is built and measured already. `memory`: that of its setup. */
  static from(base: Setup, memory: SetupMemory, findings: Findings, measure: MeasurePairs): Trials {
    const trials = new Trials(memory, base, measure);
    trials.keep(base, trials.baseKeys, findings);
    return trials;
  }

  /** Number of checked pairs of the file's corner. */
  get pairCount(): number {
    return this.base.pairs.length;
  }

  /** Number of pairs affected by the variants so far. */
  get concernedCount(): number {
    return this.affected.size;
  }

  /** Number of limits of the file's corner. */
  get limitCount(): number {
    return this.baseLimits.length;
  }

  /** Number of limits affected by the variants so far. */
  get concernedLimitCount(): number {
    return this.affectedLimits.size;
  }

  /** Limits that are unknown in the file's corner and not affected by any variant so far. */
  get unknownLimits(): LimitFinding[] {
    return this.baseLimits.filter(
      (limit) => limit.state === 'unknown' && !this.affectedLimits.has(limitId(limit)),
    );
  }

  /** Marks all pairs of a part as affected. */
  judgePart(partIndex: number): void {
    const { solids, pairs } = this.base;
    for (const pair of pairs)
      if ([pair.a, pair.b].some((solid) => solids[solid].partIndex === partIndex))
        this.affected.add(pairId(this.base.solids, pair));
  }

  /**
   * Builds a changed file, as JSON, and measures what the change affects. Rejects with the signal's reason when
   * cancelled.
   */
  async attempt(source: unknown, signal?: AbortSignal): Promise<Attempt> {
    signal?.throwIfAborted();
    const setup = await this.build(source, setUp);
    if ('problems' in setup)
      return { problems: setup.problems, keys: new Map(), limits: [], locksOut: false };
    const keys = keysOf(setup, motionKey(setup));
    const changed = [...keys.keys()].filter((id) => keys.get(id) !== this.baseKeys.get(id));
    for (const id of changed) this.affected.add(id);
    await this.measureMissing(setup, keys, changed, signal);
    const { limits: measured, locksOut } = this.limitMemory.of(setup);
    const limits = limitFindings(measured);
    for (const limit of limits)
      if (resultText(limit) !== this.baseResultTexts.get(limitId(limit)))
        this.affectedLimits.add(limitId(limit));
    return { problems: [], corner: setup.design.corner, keys, limits, locksOut };
  }

  /** The result of a variant in all pairs and limits that are affected so far. */
  async judge(attempt: Attempt, signal?: AbortSignal): Promise<TrialResult> {
    const { problems, corner, keys } = attempt;
    if (corner === undefined) return { verdict: 'fails', problems, pairs: [], limits: [], locksOut: false };
    const ids = [...this.affected].filter((id) => keys.has(id));
    const asInFile = ids.filter((id) => keys.get(id) === this.baseKeys.get(id));
    await this.measureMissing(this.base, this.baseKeys, asInFile, signal);
    const pairs = ids.map((id) => this.results.get(keys.get(id) as string) as PairTrial).sort(worstFirst);
    const limits = attempt.limits.filter((limit) => this.affectedLimits.has(limitId(limit)));
    const locksOut = attempt.locksOut && (limits.length > 0 || pairs.some(({ moves }) => moves));
    const fails = pairs.some(pairFails) || limits.some(({ state }) => state === 'binds');
    const unknown = locksOut || [...pairs, ...limits].some(({ state }) => state === 'unknown');
    const verdict = fails ? 'fails' : unknown ? 'unknown' : 'fits';
    return { verdict, problems, corner, pairs, limits, locksOut };
  }

  /**
   * The result of one pair in a changed file; no other pair is measured. Undefined if the changed corner does not check the
   * pair. Rejects with the signal's reason when cancelled.
   */
  async attemptPair(
    source: unknown,
    id: string,
    signal?: AbortSignal,
  ): Promise<{ problems: readonly Problem[]; trial?: PairTrial }> {
    signal?.throwIfAborted();
    const built = await this.build(source, buildCorner);
    if ('problems' in built) return built;
    const p = built.pairs.findIndex((pair) => pairId(built.solids, pair) === id);
    if (p < 0) return { problems: [] };
    const key = pairKey(built, p, motionKey(built));
    if (!this.results.has(key)) {
      const setup = withBodies({ ...built, pairs: [built.pairs[p]], unchecked: [] }, this.memory);
      await this.measureMissing(setup, new Map([[id, key]]), [id], signal);
    }
    return { problems: [], trial: this.results.get(key) };
  }

  /** The pairs that a variant affects, with their results in the file's corner and in the variant. */
  async compared({ keys }: Attempt, signal?: AbortSignal): Promise<PairChange[]> {
    const changed = [...keys.keys()].filter(
      (id) => this.baseKeys.has(id) && keys.get(id) !== this.baseKeys.get(id),
    );
    await this.measureMissing(this.base, this.baseKeys, changed, signal);
    return changed.map((id) => ({
      before: this.results.get(this.baseKeys.get(id) as string) as PairTrial,
      after: this.results.get(keys.get(id) as string) as PairTrial,
    }));
  }

  /** The limits that a variant makes worse: binding or unknown, and of a better state in the file's corner. */
  worseLimits({ limits }: Attempt): LimitFinding[] {
    const before = new Map(this.baseLimits.map((limit) => [limitId(limit), limit.state]));
    return limits.filter((limit) => {
      const was = before.get(limitId(limit));
      return limit.state === 'binds' ? was !== 'binds' : limit.state === 'unknown' && was === 'clear';
    });
  }

  /** Whether the file's corner locks out within its travel and steering. */
  get baseLocksOut(): boolean {
    return this.limitMemory.of(this.base).locksOut;
  }

  private async build<B extends Built = Setup>(
    source: unknown,
    builder: (...given: Parameters<typeof buildCorner>) => Promise<B>,
  ): Promise<B | { problems: readonly Problem[] }> {
    const read = parseDesign(JSON.stringify(withoutMeasuredTo(source)), this.base.design.assets);
    if (read.kind === 'bad') return { problems: read.problems };
    try {
      return await builder(read.design, this.base.settings, this.memory);
    } catch (error) {
      if (error instanceof DesignProblems) return { problems: error.problems };
      throw error;
    }
  }

  /** Measures the given pairs of a corner that are not cached yet. */
  private async measureMissing(
    setup: Setup,
    keys: ReadonlyMap<string, string>,
    ids: readonly string[],
    signal: AbortSignal | undefined,
  ): Promise<void> {
    const missing = new Set(ids.filter((id) => !this.results.has(keys.get(id) as string)));
    const open = setup.pairs.flatMap((pair, p) => (missing.has(pairId(setup.solids, pair)) ? [p] : []));
    for (const moves of [false, true]) {
      const chosen = withPairs(
        setup,
        open.filter((p) => setup.pairs[p].moves === moves),
      );
      if (chosen.pairs.length === 0) continue;
      const findings = moves ? await this.measure(chosen, NO_LIMITS, signal) : await measureFitPairs(chosen);
      signal?.throwIfAborted();
      this.keep(chosen, keys, findings);
    }
  }

  /** Caches the results of the pairs of a corner by their keys. */
  private keep(setup: Setup, keys: ReadonlyMap<string, string>, findings: Findings): void {
    pairTrials(setup, findings).forEach((trial, p) => {
      this.results.set(keys.get(pairId(setup.solids, setup.pairs[p])) as string, trial);
    });
  }
}

function keysOf(setup: Setup, motion: string): Map<string, string> {
  return new Map(setup.pairs.map((pair, p) => [pairId(setup.solids, pair), pairKey(setup, p, motion)]));
}

/** Pairs are measured without limits; limits are checked separately. */
const NO_LIMITS = [] as const;

/** Identifies a limit: a part has the same index in every variant. */
const limitId = ({ kind, partIndex }: LimitFinding): string => `${kind} ${partIndex}`;

/** The result of a limit as text, for comparison. */
const resultText = ({ usedAtSteps: _, ...result }: LimitFinding): string => JSON.stringify(result);

/**
 * Rank of a pair in the list. Bolted parts with a target of 0 come last: the space beside their clamped faces is not
 * useful daylight.
 */
const rank = (trial: PairTrial): number => {
  if (pairFails(trial)) return 0;
  if (trial.state === 'unknown') return 1;
  return !trial.moves && trial.targetMm === 0 ? 3 : 2;
};

function worstFirst(one: PairTrial, other: PairTrial): number {
  if (rank(one) !== rank(other)) return rank(one) - rank(other);
  if (one.leastMarginMm === other.leastMarginMm) return 0;
  // An unknown margin (NaN) has no order.
  return one.leastMarginMm - other.leastMarginMm || 0;
}
