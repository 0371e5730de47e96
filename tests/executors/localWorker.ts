import type { WorkerHandle } from '../../src/executors/poolWorker.ts';

/**
 * A worker in this thread that uses the real protocol of `serve`. `diesAfter`: number of replies before it dies.
 */
export function localWorker<Q, R extends object>(
  serve: (reply: (message: R) => void) => (request: Q) => void,
  diesAfter = Number.POSITIVE_INFINITY,
) {
  let isEnded = false;
  let answer: ((request: Q) => void) | undefined;
  const handle: WorkerHandle<Q, R> = {
    post(request) {
      const copy = structuredClone(request);
      setTimeout(() => !isEnded && answer?.(copy), 0);
    },
    listen(onReply, onDeath) {
      let replies = 0;
      answer = serve((reply) => {
        if (++replies > diesAfter) onDeath('out of memory');
        else if (!isEnded) onReply(structuredClone(reply));
      });
    },
    terminate() {
      isEnded = true;
    },
  };
  return { handle, isEnded: () => isEnded };
}
