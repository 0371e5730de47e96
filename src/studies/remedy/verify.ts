import type { Corner } from '../../design/schema.ts';
import type { LimitFinding } from '../../findings/limitFindings.ts';
import { pairIdFrom } from '../../sweep/pair.ts';
import type { Problem } from '../../units/problem.ts';
import { studyAssembly, type UnreachableWay } from '../assembly/assembly.ts';
import { type PairTrial, pairFails, pairFits } from '../vary/pairTrial.ts';
import type { PairChange, Trials } from '../vary/trials.ts';
import { type AlignmentFigures, alignmentFigures } from './alignmentFigures.ts';

/** Why a change that clears the pair is refused. */
export type Reason =
  | { kind: 'notBuilt'; problems: readonly Problem[] }
  /** Joints or dampers that are out of their range in the changed corner, and were not before. */
  | { kind: 'limits'; limits: readonly LimitFinding[] }
  | { kind: 'locksOut' }
  /** Bolts that cannot be reached in the changed corner, and could before. */
  | { kind: 'bolts'; ways: readonly UnreachableWay[] };

/** A changed corner after a sweep and proof of everything that the change affects. */
export interface Verified {
  /** The changed corner: the poses of all pairs are those of its own travel and steering. */
  corner: Corner;
  /** The pair in hand. */
  after: PairTrial;
  /** All other pairs that the change affects: the largest loss first. */
  others: readonly OtherPair[];
  /** Other pairs of the changed corner that touch or are tight, changed or not. */
  failing: readonly PairTrial[];
  /** Those of `failing` that clear in the file's corner, and pairs that are known there and unknown here. */
  newlyFailing: readonly PairTrial[];
  newlyUnknown: readonly PairTrial[];
  /** Limits of joints and dampers that bind; they bind in the file's corner too. */
  binding: readonly LimitFinding[];
  alignment: AlignmentFigures;
}

export interface OtherPair extends PairChange {
  /** Change of the least margin, mm; undefined if the pair is far or unknown before or after. */
  gainMm: number | undefined;
}

const idOf = ({ a, b }: PairTrial): string => pairIdFrom(a, b);

/** Ways that cannot be reached, by what identifies each; none for a corner without bolts. */
async function unreachableWays(corner: Corner): Promise<Map<string, UnreachableWay>> {
  if (!corner.parts.some(({ kind }) => kind === 'bolts')) return new Map();
  const { unreachable } = await studyAssembly(corner);
  return new Map(
    unreachable.map((way) => {
      const { boltsId, index, stage, end } = way.body;
      return [JSON.stringify([boltsId, index, stage, end]), way];
    }),
  );
}

/** Verifies changed files of one corner: everything that a change affects is swept and proved, and checked. */
export class Verifier {
  private readonly trials: Trials;
  private readonly corner: Corner;
  private readonly base: readonly PairTrial[];
  private baseWays: Promise<ReadonlyMap<string, UnreachableWay>> | undefined;

  /** `base`: the results of all pairs of the file's corner. */
  constructor(trials: Trials, corner: Corner, base: readonly PairTrial[]) {
    this.trials = trials;
    this.corner = corner;
    this.base = base;
  }

  /**
   * Verifies a changed file, as JSON. `id`: the pair in hand. Returns reasons instead if another check refuses the change.
   * Rejects with the signal's reason when cancelled.
   */
  async verify(source: unknown, id: string, signal?: AbortSignal): Promise<Verified | Reason[]> {
    const attempt = await this.trials.attempt(source, signal);
    const { corner, problems, locksOut } = attempt;
    if (corner === undefined) return [{ kind: 'notBuilt', problems }];
    const reasons: Reason[] = [];
    const limits = this.trials.worseLimits(attempt);
    if (limits.length > 0) reasons.push({ kind: 'limits', limits });
    if (locksOut && !this.trials.baseLocksOut) reasons.push({ kind: 'locksOut' });
    if (reasons.length > 0) return reasons;
    this.baseWays ??= unreachableWays(this.corner);
    const before = await this.baseWays;
    const ways = [...(await unreachableWays(corner))].flatMap(([way, found]) =>
      before.has(way) ? [] : [found],
    );
    if (ways.length > 0) return [{ kind: 'bolts', ways }];
    const changes = new Map(
      (await this.trials.compared(attempt, signal)).map((change) => [idOf(change.before), change]),
    );
    const after = changes.get(id)?.after;
    if (after === undefined) throw new Error(`the change does not affect the pair ${id}`);
    changes.delete(id);
    const now = this.base
      .filter((trial) => idOf(trial) !== id)
      .map((trial) => changes.get(idOf(trial)) ?? { before: trial, after: trial });
    const others = [...changes.values()].map((change) => ({ ...change, gainMm: gainOf(change) }));
    return {
      corner,
      after,
      others: others.sort((one, other) => (one.gainMm ?? 0) - (other.gainMm ?? 0)),
      failing: now.filter((pair) => pairFails(pair.after)).map((pair) => pair.after),
      newlyFailing: now
        .filter((pair) => pairFails(pair.after) && pairFits(pair.before))
        .map((pair) => pair.after),
      newlyUnknown: now
        .filter((pair) => pair.after.state === 'unknown' && pair.before.state !== 'unknown')
        .map((pair) => pair.after),
      binding: attempt.limits.filter(({ state }) => state === 'binds'),
      alignment: alignmentFigures(corner),
    };
  }
}

function gainOf({ before, after }: PairChange): number | undefined {
  const gain = after.leastMarginMm - before.leastMarginMm;
  return Number.isFinite(gain) ? gain : undefined;
}
