import {
  type DividedProof,
  type Outcome,
  type PartResult,
  type ProvedPair,
  stepsOfPair,
} from '../proof/prove.ts';
import type { SweepResult } from '../sweep/result.ts';
import type { PoolWorker } from './poolWorker.ts';

/** A worker's task: a pair, or one part of a divided proof. */
type ProofTask = { pair: number } & ({ kind: 'pair' } | { kind: 'part'; round: Round; index: number });

/** A divided proof and the results of its parts so far. */
interface Round {
  proof: DividedProof;
  results: (PartResult | undefined)[];
}

/**
 * Queue of a proof's tasks, shared by all workers. Parts of started proofs go before pairs that are not started,
 * because divided proofs are long.
 */
export class ProofTasks {
  readonly proved: ProvedPair[] = [];
  private readonly count: number;
  private finished = 0;
  private readonly ready: ProofTask[];
  private readonly idle: ((task: ProofTask | undefined) => void)[] = [];

  /** `order`: all pairs, in the order in which their proofs start. */
  constructor(order: readonly number[]) {
    this.ready = order.map((pair) => ({ kind: 'pair', pair }));
    this.count = order.length;
  }

  /** Resolves with the next task when one is available, and with undefined once all pairs are proved. */
  next(): Promise<ProofTask | undefined> {
    const task = this.ready.shift();
    if (task !== undefined || this.finished === this.count) return Promise.resolve(task);
    return new Promise((resolve) => this.idle.push(resolve));
  }

  /** Records a proved pair, or queues the parts of a divided proof. Returns whether the pair is proved. */
  record(pair: number, outcome: Outcome): boolean {
    if (outcome.kind === 'proved') {
      this.proved[pair] = outcome.proved;
      this.finished += 1;
      if (this.finished === this.count) for (const resolve of this.idle.splice(0)) resolve(undefined);
      return true;
    }
    const round: Round = { proof: outcome, results: outcome.parts.map(() => undefined) };
    this.ready.unshift(...outcome.parts.map((_, index): ProofTask => ({ kind: 'part', pair, round, index })));
    while (this.idle.length > 0 && this.ready.length > 0) this.idle.shift()?.(this.ready.shift());
    return false;
  }
}

/**
 * Runs a task on a worker. Returns the number of cells searched and the outcome of the pair, which is undefined while
 * other parts of its proof are running.
 */
export async function runTask(
  worker: PoolWorker,
  task: ProofTask,
  result: SweepResult,
  onCells: (cells: number) => void,
): Promise<{ cells: number; outcome: Outcome | undefined }> {
  const { pair } = task;
  if (task.kind === 'pair') {
    const { state, clearanceMm } = stepsOfPair(result, pair);
    // Copies: posting a subarray would transfer its whole buffer.
    const steps = { state: state.slice(), clearanceMm: clearanceMm.slice() };
    const { outcome } = await worker.request({ kind: 'prove', pair, steps }, [], onCells);
    const { cells } = outcome.kind === 'proved' ? outcome.proved : outcome.state.spent;
    return { cells, outcome };
  }
  const { round, index } = task;
  const { state, partBudget, parts } = round.proof;
  const request = { kind: 'part' as const, pair, proof: { state, partBudget }, cells: parts[index] };
  const { result: part } = await worker.request(request, [], onCells);
  round.results[index] = part;
  const { cells } = part.spent;
  const results = round.results.filter((one) => one !== undefined);
  if (results.length < parts.length) return { cells, outcome: undefined };
  const { outcome } = await worker.request({ kind: 'merge', pair, proof: { state }, results });
  return { cells, outcome };
}
