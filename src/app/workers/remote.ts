import { type ProxyMarked, proxy, type Remote, wrap } from 'comlink';
import { onWorkerDeath } from '../../executors/workerDeath.ts';

/** A call that runs in its own worker. */
export interface WorkerCall<R> {
  /** Rejects with an Error if the call fails or the worker dies. Never settles after `cancel`. */
  readonly result: Promise<R>;
  cancel(): void;
}

/** The functions of a worker. */
export class RemoteWorker<Api> {
  private readonly worker: Worker;
  private readonly api: Remote<Api>;
  /** Rejects each call that has not settled. */
  private readonly unsettled = new Set<(why: Error) => void>();
  private isOver = false;
  private whyDead: string | undefined;

  /** `onDeath` receives the reason if the worker dies. */
  constructor(worker: Worker, onDeath?: (why: string) => void) {
    this.worker = worker;
    this.api = wrap<Api>(worker);
    onWorkerDeath(worker, (why) => {
      this.isOver = true;
      this.whyDead = why;
      for (const reject of this.unsettled) reject(new Error(why));
      onDeath?.(why);
    });
  }

  /** The worker died or was ended: no call of it settles any more. */
  get ended(): boolean {
    return this.isOver;
  }

  /**
   * Runs a call. Rejects with an Error if it fails or the worker dies; never settles after `end`. A race of each call with
   * one promise of the worker's death would hold every result as long as the worker lives.
   */
  call<R>(run: (api: Remote<Api>) => PromiseLike<R>): Promise<R> {
    return new Promise((resolve, reject) => {
      if (this.whyDead !== undefined) throw new Error(this.whyDead);
      const result = Promise.resolve(run(this.api));
      this.unsettled.add(reject);
      result.then(resolve, reject).finally(() => this.unsettled.delete(reject));
    });
  }

  end(): void {
    this.isOver = true;
    this.worker.terminate();
  }
}

/** Makes a function that the worker can call. It does nothing once the call has ended. */
type Callback = <Args extends unknown[]>(
  f: (...args: Args) => void,
) => ((...args: Args) => void) & ProxyMarked;

/** Runs one call in a worker that ends with it. */
export function callOnce<Api, R>(
  worker: Worker,
  run: (api: Remote<Api>, callback: Callback) => PromiseLike<R>,
): WorkerCall<R> {
  const remote = new RemoteWorker<Api>(worker);
  // Messages of a callback have their own port: one may arrive after the result.
  const callback: Callback = (f) =>
    proxy((...args) => {
      if (!remote.ended) f(...args);
    });
  const result = remote.call((api) => run(api, callback)).finally(() => remote.end());
  return { result, cancel: () => remote.end() };
}

/** Runs one request at a time. While it runs, the newest supersedes those that wait before it. */
export class NewestRequest {
  private waiting: { start: () => Promise<void>; isKept: boolean }[] = [];
  private busy = false;

  /**
   * Settles as the request does; never if a newer request or `clear` supersedes it while it waits. A kept request is not
   * superseded by newer ones.
   */
  run<R>(request: () => Promise<R>, isKept = false): Promise<R> {
    return new Promise((resolve, reject) => {
      const start = () => request().then(resolve, reject);
      this.waiting = [...this.waiting.filter((earlier) => earlier.isKept), { start, isKept }];
      if (!this.busy) void this.runWaiting();
    });
  }

  clear(): void {
    this.waiting = [];
  }

  private async runWaiting(): Promise<void> {
    this.busy = true;
    for (let next = this.waiting.shift(); next !== undefined; next = this.waiting.shift()) await next.start();
    this.busy = false;
  }
}
