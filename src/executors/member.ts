import { DesignProblems } from '../design/problem.ts';
import type { Reply, Request } from './protocol.ts';

/** One worker as this thread sees it, whatever platform it runs on. */
export interface WorkerHandle<Q = Request, R = Reply> {
  post(request: Q, transfer?: readonly MessagePort[]): void;
  /** Replies, and the words of a worker that died. */
  listen(onReply: (reply: R) => void, onDeath: (why: string) => void): void;
  terminate(): void;
}

interface Told {
  kind: string;
}

/** A request that has no answer yet. */
interface Waiting<R> {
  answer: Promise<R>;
  resolve: (reply: R) => void;
  reject: (error: Error) => void;
  onUnderway: ((cells: number) => void) | undefined;
}

/** A worker that is asked and answers, in order; by default one that sweeps. */
export class Member<Q extends Told = Request, R extends Told = Reply> {
  private readonly handle: WorkerHandle<Q, R>;
  private readonly waiting: Waiting<R>[] = [];
  private failure: Error | undefined;
  private answered = false;

  /** `name`: of the worker, in the words of an error. */
  constructor(handle: WorkerHandle<Q, R>, name = 'a sweep worker') {
    this.handle = handle;
    handle.listen(
      (message) => {
        const reply = message as R | Extract<Reply, { kind: Message }>;
        if (isMessage(reply, 'underway')) return this.waiting[0]?.onUnderway?.(reply.cells);
        this.answered = true;
        const asked = this.waiting.shift();
        if (isMessage(reply, 'problems')) asked?.reject(new DesignProblems(reply.problems));
        else if (isMessage(reply, 'failed')) asked?.reject(new Error(reply.message));
        else asked?.resolve(message);
      },
      (why) => this.fail(new Error(`${name} died: ${why}`)),
    );
  }

  /** Whether it can still be asked. */
  get alive(): boolean {
    return this.failure === undefined;
  }

  /** Whether it has answered a request: until then it may still be loading. */
  get hasAnswered(): boolean {
    return this.answered;
  }

  /**
   * The answer to a request. Rejects with DesignProblems for a corner that is bad, with an Error in the worker's words
   * when it cannot answer, when it dies and when it was ended. `onUnderway` gets the cells that a proof has looked at so
   * far.
   */
  ask<K extends Q['kind'] & R['kind']>(
    request: Extract<Q, { kind: K }>,
    transfer: readonly MessagePort[] = [],
    onUnderway?: (cells: number) => void,
  ): Promise<Extract<R, { kind: K }>> {
    if (this.failure !== undefined) return Promise.reject(this.failure);
    let [resolve, reject]: [(reply: R) => void, (error: Error) => void] = [() => {}, () => {}];
    const answer = new Promise<R>((...settle) => {
      [resolve, reject] = settle;
    });
    this.waiting.push({ answer, resolve, reject, onUnderway });
    this.handle.post(request, transfer);
    return answer as Promise<Extract<R, { kind: K }>>;
  }

  /** Whether it answers within a time, ms, all that it was asked before this call. */
  answersWithin(ms: number): Promise<boolean> {
    const last = this.waiting.at(-1);
    if (last === undefined) return Promise.resolve(true);
    return new Promise((resolve) => {
      const timer = setTimeout(() => resolve(false), ms);
      const answered = () => {
        clearTimeout(timer);
        resolve(true);
      };
      last.answer.then(answered, answered);
    });
  }

  end(): void {
    this.fail(new Error('the worker was ended'));
    this.handle.terminate();
  }

  private fail(error: Error): void {
    this.failure ??= error;
    for (const { reject } of this.waiting.splice(0)) reject(error);
  }
}

/** What a worker may send in place of an answer, or before it. */
type Message = 'problems' | 'failed' | 'underway';

const isMessage = <K extends Message>(reply: Told, kind: K): reply is Extract<Reply, { kind: K }> =>
  reply.kind === kind;
