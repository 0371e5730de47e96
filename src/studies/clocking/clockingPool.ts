import { deal } from '../../executors/deal.ts';
import { PoolWorker, type WorkerHandle } from '../../executors/poolWorker.ts';
import type { FastenerBody } from '../../solids/fasteners/fastenerBodies.ts';
import type { Setup } from '../../sweep/setUp.ts';
import type { ClockingReply, ClockingRequest } from './clockingProtocol.ts';
import type { FirstEstimate } from './firstEstimate.ts';
import type { Profile } from './profile.ts';

export type ClockingHandle = WorkerHandle<ClockingRequest, ClockingReply>;

export interface ClockingWork {
  setup: Setup;
  bodies: readonly FastenerBody[];
  minMarginMm: number | undefined;
  /** Number of pairs of the study, and the indices of those to estimate first; the others take no time. */
  pairs: number;
  toEstimate: readonly number[];
  signal?: AbortSignal;
  /** Called for each of these pairs before any pair is measured; the estimates show which pairs take long. */
  onEstimate(pair: number, estimate: FirstEstimate): void;
  onProfile(pair: number, profile: Profile): void;
}

/**
 * A pool of workers that measure the pairs of a clocking study, the slowest pairs first. A pair has the same result
 * on any worker, so the study is the same as without workers. The workers keep the corner for the next study.
 *
 * Cancelled work rejects with the signal's reason, and pending replies are dropped. If a worker dies, the work
 * rejects with an Error and the pool is no longer `alive`.
 */
export class ClockingPool {
  private readonly workers: PoolWorker<ClockingRequest, ClockingReply>[];
  private held: Setup | undefined;

  constructor(makeWorker: () => ClockingHandle, workers: number) {
    this.workers = Array.from(
      { length: Math.max(1, workers) },
      () => new PoolWorker(makeWorker(), 'a worker of the clocking study'),
    );
  }

  get alive(): boolean {
    return this.workers.every(({ alive }) => alive);
  }

  end(): void {
    for (const worker of this.workers) worker.end();
  }

  /** Measures every pair. */
  async measure({
    setup,
    bodies,
    minMarginMm,
    pairs,
    toEstimate,
    signal,
    onEstimate,
    onProfile,
  }: ClockingWork): Promise<void> {
    signal?.throwIfAborted();
    const isNew = this.held !== setup;
    this.held = setup;
    let stopped = false;
    let onAbort = () => {};
    const cancelled = new Promise<never>((_, reject) => {
      onAbort = () => reject(signal?.reason);
      signal?.addEventListener('abort', onAbort, { once: true });
    });
    const isStopped = () => stopped || signal?.aborted === true;
    const all = Array.from({ length: pairs }, (_, pair) => pair);
    /** Time of each pair's estimate. */
    const tookMs = new Float64Array(pairs);
    const ready = async (worker: PoolWorker<ClockingRequest, ClockingReply>) => {
      if (isNew) await worker.request({ kind: 'setCorner', setup, bodies });
      // After a cancellation, a newer request sets the margin.
      if (!isStopped()) await worker.request({ kind: 'setMargin', minMarginMm });
    };
    const distribute = async (
      order: readonly number[],
      work: (worker: PoolWorker<ClockingRequest, ClockingReply>, pair: number) => Promise<() => void>,
    ) => {
      const measureOne = async (worker: PoolWorker<ClockingRequest, ClockingReply>, pair: number) => {
        const report = await work(worker, pair);
        if (!isStopped()) report();
      };
      await deal(this.workers, order, { work: measureOne }, signal);
    };
    const work = async () => {
      await Promise.all(this.workers.map(ready));
      await distribute(toEstimate, async (worker, pair) => {
        const { estimate, tookMs: ms } = await worker.request({ kind: 'estimate', pair });
        tookMs[pair] = ms;
        return () => onEstimate(pair, estimate);
      });
      await distribute(
        all.toSorted((one, other) => tookMs[other] - tookMs[one]),
        async (worker, pair) => {
          const { profile } = await worker.request({ kind: 'profile', pair });
          return () => onProfile(pair, profile);
        },
      );
    };
    try {
      await Promise.race([work(), cancelled]);
    } catch (error) {
      // A worker that did not get this corner still holds another one.
      if (isNew && !isStopped()) this.held = undefined;
      throw error;
    } finally {
      stopped = true;
      signal?.removeEventListener('abort', onAbort);
    }
  }
}
