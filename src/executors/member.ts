import { DesignProblems } from '../design/problem.ts';
import type { Reply, Request } from './protocol.ts';

/** One worker as this thread sees it, whatever platform it runs on. */
export interface WorkerHandle {
  post(request: Request, transfer?: readonly MessagePort[]): void;
  /** Replies, and the words of a worker that died. */
  listen(onReply: (reply: Reply) => void, onDeath: (why: string) => void): void;
  terminate(): void;
}

type Answer<K extends Request['kind']> = Extract<Reply, { kind: K }>;

/** A worker that is asked and answers, in order. */
export class Member {
  private readonly handle: WorkerHandle;
  private readonly waiting: { resolve: (reply: Reply) => void; reject: (error: Error) => void }[] = [];
  private failure: Error | undefined;

  constructor(handle: WorkerHandle) {
    this.handle = handle;
    handle.listen(
      (reply) => {
        const asked = this.waiting.shift();
        if (reply.kind === 'problems') asked?.reject(new DesignProblems(reply.problems));
        else if (reply.kind === 'failed') asked?.reject(new Error(reply.message));
        else asked?.resolve(reply);
      },
      (why) => this.fail(new Error(`a sweep worker died: ${why}`)),
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
  ask<K extends Request['kind']>(
    request: Extract<Request, { kind: K }>,
    transfer: readonly MessagePort[] = [],
  ): Promise<Answer<K>> {
    if (this.failure !== undefined) return Promise.reject(this.failure);
    return new Promise((resolve, reject) => {
      this.waiting.push({ resolve: (reply) => resolve(reply as Answer<K>), reject });
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
