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

/** A worker that is asked and answers, in order; by default one that sweeps. */
export class Member<Q extends Told = Request, R extends Told = Reply> {
  private readonly handle: WorkerHandle<Q, R>;
  private readonly waiting: { resolve: (reply: R) => void; reject: (error: Error) => void }[] = [];
  private failure: Error | undefined;

  /** `name`: of the worker, in the words of an error. */
  constructor(handle: WorkerHandle<Q, R>, name = 'a sweep worker') {
    this.handle = handle;
    handle.listen(
      (told) => {
        const asked = this.waiting.shift();
        const reply = told as R | Extract<Reply, { kind: 'problems' | 'failed' }>;
        if (isTrouble(reply, 'problems')) asked?.reject(new DesignProblems(reply.problems));
        else if (isTrouble(reply, 'failed')) asked?.reject(new Error(reply.message));
        else asked?.resolve(told);
      },
      (why) => this.fail(new Error(`${name} died: ${why}`)),
    );
  }

  /** Whether it can still be asked. */
  get alive(): boolean {
    return this.failure === undefined;
  }

  /**
   * The answer to a request. Rejects with DesignProblems for a corner that is bad, with an Error in the worker's words
   * when it cannot answer, when it dies and when it was ended.
   */
  ask<K extends Q['kind'] & R['kind']>(
    request: Extract<Q, { kind: K }>,
    transfer: readonly MessagePort[] = [],
  ): Promise<Extract<R, { kind: K }>> {
    if (this.failure !== undefined) return Promise.reject(this.failure);
    return new Promise((resolve, reject) => {
      this.waiting.push({ resolve: (reply) => resolve(reply as Extract<R, { kind: K }>), reject });
      this.handle.post(request, transfer);
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

/** Whether a reply says why there is no answer. */
const isTrouble = <K extends 'problems' | 'failed'>(
  reply: Told,
  kind: K,
): reply is Extract<Reply, { kind: K }> => reply.kind === kind;
