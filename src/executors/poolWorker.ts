import { DesignProblems } from '../units/problem.ts';
import type { Reply, Request } from './protocol.ts';

/** Connection to a worker, the same on every platform. */
export interface WorkerHandle<Q = Request, R = Reply> {
  post(request: Q, transfer?: readonly MessagePort[]): void;
  /** `onDeath` gets the reason why the worker died. */
  listen(onReply: (reply: R) => void, onDeath: (why: string) => void): void;
  terminate(): void;
}

interface Kinded {
  kind: string;
}

/** A request without a reply yet. */
interface PendingRequest<R> {
  reply: Promise<R>;
  resolve: (reply: R) => void;
  reject: (error: Error) => void;
  onCells: ((cells: number) => void) | undefined;
}

/** A worker that replies to requests in order; by default a sweep worker. */
export class PoolWorker<Q extends Kinded = Request, R extends Kinded = Reply> {
  private readonly handle: WorkerHandle<Q, R>;
  private readonly pending: PendingRequest<R>[] = [];
  private failure: Error | undefined;
  private hasReplied = false;

  /** `name`: names the worker in error messages. */
  constructor(handle: WorkerHandle<Q, R>, name = 'a sweep worker') {
    this.handle = handle;
    handle.listen(
      (message) => {
        const reply = message as R | Extract<Reply, { kind: ControlReply }>;
        if (isControlReply(reply, 'progress')) return this.pending[0]?.onCells?.(reply.cells);
        this.hasReplied = true;
        const request = this.pending.shift();
        if (isControlReply(reply, 'problems')) request?.reject(new DesignProblems(reply.problems));
        else if (isControlReply(reply, 'failed')) request?.reject(new Error(reply.message));
        else request?.resolve(message);
      },
      (why) => this.fail(new Error(`${name} died: ${why}`)),
    );
  }

  /** Whether the worker can take requests. */
  get alive(): boolean {
    return this.failure === undefined;
  }

  /** Whether it has replied to a request; until then it may still be loading. */
  get isLoaded(): boolean {
    return this.hasReplied;
  }

  /**
   * Sends a request and returns its reply. Rejects with DesignProblems for an invalid corner, and with an Error if
   * the worker fails, dies or is ended. `onCells` gets the number of cells that a proof has searched so far.
   */
  request<K extends Q['kind'] & R['kind']>(
    request: Extract<Q, { kind: K }>,
    transfer: readonly MessagePort[] = [],
    onCells?: (cells: number) => void,
  ): Promise<Extract<R, { kind: K }>> {
    if (this.failure !== undefined) return Promise.reject(this.failure);
    let [resolve, reject]: [(reply: R) => void, (error: Error) => void] = [() => {}, () => {}];
    const reply = new Promise<R>((...settle) => {
      [resolve, reject] = settle;
    });
    this.pending.push({ reply, resolve, reject, onCells });
    this.handle.post(request, transfer);
    return reply as Promise<Extract<R, { kind: K }>>;
  }

  /** Whether it replies to all pending requests within a time, ms. */
  repliesWithin(ms: number): Promise<boolean> {
    const last = this.pending.at(-1);
    if (last === undefined) return Promise.resolve(true);
    return new Promise((resolve) => {
      const timer = setTimeout(() => resolve(false), ms);
      const settled = () => {
        clearTimeout(timer);
        resolve(true);
      };
      last.reply.then(settled, settled);
    });
  }

  end(): void {
    this.fail(new Error('the worker was ended'));
    this.handle.terminate();
  }

  private fail(error: Error): void {
    this.failure ??= error;
    for (const { reject } of this.pending.splice(0)) reject(error);
  }
}

/** Replies that a worker may send instead of, or before, the reply proper. */
type ControlReply = 'problems' | 'failed' | 'progress';

const isControlReply = <K extends ControlReply>(
  reply: Kinded,
  kind: K,
): reply is Extract<Reply, { kind: K }> => reply.kind === kind;
