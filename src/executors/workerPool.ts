import type { Body } from '../clearance/body.ts';
import type { CornerFiles } from '../design/assets.ts';
import type { LockedOut, Proof } from '../proof/prove.ts';
import type { Place } from '../proof/proveBetween.ts';
import { pendingResult, placeRow } from '../sweep/assemble.ts';
import type { MeasuredLimit } from '../sweep/limit.ts';
import type { PairContact } from '../sweep/pairContact.ts';
import type { SweepResult, SweepSettings } from '../sweep/result.ts';
import type { Row } from '../sweep/row.ts';
import { type Built, bodySlots, type Setup } from '../sweep/setUp.ts';
import { bandsCoarseToFine } from '../sweep/steps.ts';
import type { ProofOptions, SweepOptions } from './options.ts';
import { PoolWorker, type WorkerHandle } from './poolWorker.ts';
import { ProofTasks, runTask } from './proofTasks.ts';
import { provingOrder } from './provingOrder.ts';

/** A worker that is still busy with cancelled work after this time, ms, is ended and replaced. */
const GRACE_MS = 800;

/** Requests sent to a worker at once, so that it need not wait for this thread between two requests. */
const REQUESTS_PER_WORKER = 2;

/** The corner that a pool works on. */
interface HeldCorner {
  built: Built;
  /** Sends the corner to a worker. */
  send: (worker: PoolWorker) => Promise<unknown>;
  /** For each worker, resolves when it holds the corner. */
  ready: Promise<unknown>[];
  /** The first band of rows, if the builder sweeps it before it sends the corner to the workers. */
  firstBand?: Promise<readonly Row[]>;
  /** Called when the pool gets another corner. */
  onSuperseded: (() => void)[];
}

const superseded = () => new Error('another corner has been opened');

/**
 * A pool of workers that sweep and prove one corner at a time. Idle workers get the next rows or pairs; a row or pair
 * is the same on any worker, and so is the result. A corner read from its file is built by one more worker, the
 * builder. The builder reuses its solids for the next corner and stays free to measure single poses.
 *
 * A cancelled sweep or proof rejects with the signal's reason; one of a superseded corner rejects with an Error.
 * Pending replies are dropped, and a worker that does not finish soon is replaced. If a worker dies, its sweep or
 * proof rejects with an Error and the pool is no longer `alive`. No partial result is ever returned.
 *
 * Tried first: each worker builds the corner from its file. On two cores both workers then spend as long on building
 * as on a third of their sweep, and the modeller is loaded twice. Copying a built corner takes 40 ms.
 */
export class WorkerPool {
  private readonly makeWorker: () => WorkerHandle;
  private readonly forWorkers: <T extends Built>(corner: T) => T;
  private readonly workers: PoolWorker[];
  private builder: PoolWorker | undefined;
  private current: HeldCorner | undefined;
  /** Indices of workers that are not computing a contact, and contact requests that wait for one. */
  private readonly idle: number[];
  private readonly waitingForIdle: ((worker: number) => void)[] = [];

  /** `forWorkers`: prepares a corner that this thread has built for sending; by default the corner is sent as it is. */
  constructor(
    makeWorker: () => WorkerHandle,
    workers: number,
    forWorkers: <T extends Built>(corner: T) => T = (corner) => corner,
  ) {
    this.makeWorker = makeWorker;
    this.forWorkers = forWorkers;
    this.workers = Array.from({ length: Math.max(1, workers) }, () => new PoolWorker(makeWorker()));
    this.idle = this.workers.map((_, m) => m);
  }

  get alive(): boolean {
    return [...this.workers, ...(this.builder === undefined ? [] : [this.builder])].every(
      ({ alive }) => alive,
    );
  }

  /**
   * Builds the corner of its files. If the corner is invalid, rejects with DesignProblems and keeps the current corner.
   * The workers receive the corner only after its first row is swept, if it is the first corner, and `beforeWorkers` has
   * resolved: on two cores they would delay what the user waits for.
   */
  async open(
    files: CornerFiles,
    settings: SweepSettings,
    beforeWorkers: () => Promise<void> = () => Promise.resolve(),
  ): Promise<Built> {
    this.builder ??= this.makeBuilder(this.makeWorker());
    const { builder } = this;
    const { built } = await builder.request({ kind: 'open', files, settings });
    const firstBand = this.current === undefined ? this.sweepFirstBand(builder, built) : undefined;
    const workersMayStart = Promise.resolve(firstBand).then(beforeWorkers, () => {});
    this.setCurrent(built, (worker) => sendCorner(builder, worker), firstBand, workersMayStart);
    return built;
  }

  protected makeBuilder(worker: WorkerHandle): PoolWorker {
    return new PoolWorker(worker);
  }

  /**
   * For the first corner, the builder sweeps the first row: the other workers are still loading. If undefined, the workers
   * sweep that row too.
   */
  protected sweepFirstBand(builder: PoolWorker, { travelMm }: Built): Promise<readonly Row[]> | undefined {
    const [travelIndexes] = bandsCoarseToFine(travelMm.length);
    return builder.request({ kind: 'band', travelIndexes }).then(({ rows }) => rows);
  }

  /** Sets a corner that this thread has built. */
  setCorner(setup: Setup): void {
    const sent = this.forWorkers(setup);
    this.setCurrent(setup, (worker) => worker.request({ kind: 'setCorner', setup: sent }));
  }

  /**
   * Builds the bodies of a corner on the workers and sets the complete corner. Rejects with an Error if a worker
   * fails.
   */
  async prepare(built: Built): Promise<Setup> {
    const sent = this.forWorkers(built);
    await Promise.all(this.workers.map((worker) => worker.request({ kind: 'setBuilt', built: sent })));
    const groups = bodySlots(built);
    const bodies: { a?: Body; b?: Body }[] = built.pairs.map(() => ({}));
    let next = 0;
    await Promise.all(
      this.workers.map(async (worker) => {
        while (next < groups.length) {
          const slots = groups[next++];
          const made = await worker.request({ kind: 'bodies', slots });
          slots.forEach(({ pair, side }, k) => {
            bodies[pair][side] = made.bodies[k];
          });
        }
      }),
    );
    const setup = { ...built, bodies: bodies as Setup['bodies'] };
    this.setCorner(setup);
    return setup;
  }

  /** The builder, which can measure single poses during a sweep or proof. Throws an Error before `open`. */
  get poseWorker(): PoolWorker {
    if (this.builder === undefined)
      throw new Error('the worker pool has built no corner yet: open one before measuring poses');
    return this.builder;
  }

  /** Measures every pair at every step. */
  async sweep(options: SweepOptions = {}): Promise<SweepResult> {
    const { onProgress, onPartial } = options;
    const { built, firstBand } = this.corner;
    const result = pendingResult(built);
    const order = bandsCoarseToFine(result.travelMm.length, this.workers.length);
    let next = firstBand === undefined ? 0 : 1;
    let done = 0;
    const place = (travelIndexes: readonly number[], rows: readonly Row[]) => {
      rows.forEach((row, k) => {
        placeRow(result, travelIndexes[k], row);
      });
      done += rows.length;
      onProgress?.(done, result.travelMm.length);
      onPartial?.(result);
    };
    await this.distribute(
      options.signal,
      REQUESTS_PER_WORKER,
      async (worker, isStopped, slot) => {
        // The second request slot of each worker takes none of the last bands, so that these go one by one to idle
        // workers.
        const reserved = slot * this.workers.length;
        while (next < order.length - reserved && !isStopped()) {
          const travelIndexes = order[next++];
          const { rows } = await worker.request({ kind: 'band', travelIndexes });
          if (isStopped()) return;
          place(travelIndexes, rows);
        }
      },
      async (isStopped) => {
        const rows = await firstBand;
        if (rows !== undefined && !isStopped()) place(order[0], rows);
      },
    );
    return result;
  }

  /** Measures the limits of the corner's joints and dampers, at the steps of its sweep and between them. */
  async limits(): Promise<readonly MeasuredLimit[]> {
    const { corner } = this;
    await corner.ready[0];
    const { limits } = await this.workers[0].request({ kind: 'limits' });
    if (this.current !== corner) throw superseded();
    return limits;
  }

  /** Proves the clearances between the steps of a complete sweep of the corner. */
  async prove(result: SweepResult, options: ProofOptions = {}): Promise<Proof> {
    const { toleranceMm, onProgress, onCells } = options;
    const { travelMm, steer, poseState } = result;
    const poses = { travelMm, steer, poseState };
    const tasks = new ProofTasks(provingOrder(this.corner.built, result));
    let lockedOut: readonly LockedOut[] = [];
    let done = 0;
    /** Cells searched in finished tasks, and in the running task of each worker. */
    let cells = 0;
    const underway = new Map<PoolWorker, number>();
    await this.distribute(options.signal, 1, async (worker, isStopped) => {
      const reportCells = (soFar: number) => {
        if (isStopped()) return;
        underway.set(worker, soFar);
        onCells?.([...underway.values()].reduce((sum, count) => sum + count, cells));
      };
      ({ lockedOut } = await worker.request({ kind: 'startProof', poses, toleranceMm }));
      for (let task = await tasks.next(); task !== undefined && !isStopped(); task = await tasks.next()) {
        const ran = await runTask(worker, task, result, reportCells);
        if (isStopped()) return;
        underway.delete(worker);
        cells += ran.cells;
        if (ran.outcome === undefined || !tasks.record(task.pair, ran.outcome)) continue;
        done += 1;
        onProgress?.(done, result.pairs.length);
      }
    });
    return { pairs: tasks.proved, lockedOut };
  }

  /**
   * Lower bounds of a pair's clearance from each place to the next, mm; see `BetweenProver.lowerMm`. `leastMm`: the
   * smaller clearance of each two places.
   */
  async between(
    pair: number,
    places: readonly Place[],
    leastMm: readonly number[],
  ): Promise<readonly number[]> {
    return (await this.poseWorker.request({ kind: 'between', pair, places, leastMm })).lowerMm;
  }

  /**
   * Contact of a pair at a pose; undefined if the parts do not meet. Computed by the builder, which has the modeller
   * loaded, or by the next idle worker in a pool without one.
   */
  async contact(pair: number, travelMm: number, steer: number): Promise<PairContact | undefined> {
    const request = { kind: 'contact' as const, pair, travelMm, steer };
    if (this.builder !== undefined) return (await this.builder.request(request)).contact;
    const m = this.idle.pop() ?? (await new Promise<number>((resolve) => this.waitingForIdle.push(resolve)));
    try {
      await this.corner.ready[m];
      return (await this.workers[m].request(request)).contact;
    } finally {
      const next = this.waitingForIdle.shift();
      if (next === undefined) this.idle.push(m);
      else next(m);
    }
  }

  end(): void {
    for (const worker of this.workers) worker.end();
    this.builder?.end();
  }

  private get corner(): HeldCorner {
    if (this.current === undefined)
      throw new Error('the worker pool has no corner yet: open or set one first');
    return this.current;
  }

  private setCurrent(
    built: Built,
    send: HeldCorner['send'],
    firstBand?: HeldCorner['firstBand'],
    beforeWorkers?: Promise<unknown>,
  ): void {
    const held: HeldCorner = { built, send, ready: [], firstBand, onSuperseded: [] };
    const before = this.current;
    this.current = held;
    for (const supersede of before?.onSuperseded ?? []) supersede();
    this.workers.forEach((_, m) => {
      this.prepareWorker(held, m, async () => {
        await beforeWorkers;
        this.requireCurrent(held);
        await this.free(m);
        this.requireCurrent(held);
        await send(this.workers[m]);
      });
    });
    firstBand?.catch(() => {});
  }

  /** Throws an Error if `held` is superseded; the workers then belong to another corner. */
  private requireCurrent(held: HeldCorner): void {
    if (this.current !== held) throw superseded();
  }

  private prepareWorker({ ready }: HeldCorner, m: number, make: () => Promise<unknown>): void {
    ready[m] = make();
    // The next sweep or proof awaits `ready` and gets the error; until then it must not count as unhandled.
    ready[m].catch(() => {});
  }

  /**
   * Waits until a worker has finished its cancelled work, and replaces it if that takes too long. Returns whether it
   * was replaced.
   */
  private async free(m: number): Promise<boolean> {
    const worker = this.workers[m];
    // A worker that has never replied is still loading and has no work to cancel.
    if (!worker.alive || !worker.isLoaded || (await worker.repliesWithin(GRACE_MS)) || !worker.alive)
      return false;
    worker.end();
    this.workers[m] = new PoolWorker(this.makeWorker());
    return true;
  }

  /** Frees all workers; the next sweep or proof waits for that. */
  private freeAll(held: HeldCorner): void {
    held.ready.forEach((before, m) => {
      this.prepareWorker(held, m, async () => {
        await before;
        this.requireCurrent(held);
        const isReplaced = await this.free(m);
        this.requireCurrent(held);
        if (isReplaced) await held.send(this.workers[m]);
      });
    });
  }

  /**
   * Runs `work` on every worker in `slots` simultaneous calls, and `beside` on this thread. Resolves when all calls
   * have ended. Rejects if a call fails, the signal aborts or another corner is set.
   */
  private async distribute(
    signal: AbortSignal | undefined,
    slots: number,
    work: (worker: PoolWorker, isStopped: () => boolean, slot: number) => Promise<void>,
    beside?: (isStopped: () => boolean) => Promise<void>,
  ): Promise<void> {
    signal?.throwIfAborted();
    const { corner } = this;
    let stopped = false;
    const isStopped = () => stopped || signal?.aborted === true || this.current !== corner;
    let onAbort = () => {};
    const cancelled = new Promise<never>((_, reject) => {
      onAbort = () => reject(signal?.reason);
      signal?.addEventListener('abort', onAbort, { once: true });
      corner.onSuperseded.push(() => reject(superseded()));
    });
    const all = corner.ready.flatMap((ready, m) =>
      Array.from({ length: slots }, (_, slot) => ready.then(() => work(this.workers[m], isStopped, slot))),
    );
    let isDone = false;
    try {
      await Promise.race([Promise.all([...all, beside?.(isStopped)]), cancelled]);
      if (this.current !== corner) throw superseded();
      isDone = true;
    } finally {
      stopped = true;
      if (!isDone && this.current === corner && this.alive) this.freeAll(corner);
      // The same signal may be used for many sweeps.
      signal?.removeEventListener('abort', onAbort);
    }
  }
}

/** Sends the corner from one worker directly to another, without copying it to this thread. */
async function sendCorner(from: PoolWorker, to: PoolWorker): Promise<void> {
  const { port1, port2 } = new MessageChannel();
  const received = to.request({ kind: 'receiveCorner', port: port2 }, [port2]);
  const shared = from.request({ kind: 'sendCorner', port: port1 }, [port1]);
  // If sending fails, the receiver would wait forever and block all its later requests.
  shared.catch(() => to.end());
  await Promise.all([shared, received]);
}
