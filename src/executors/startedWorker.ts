import type { WorkerHandle } from './member.ts';
import { onWorkerDeath } from './workerDeath.ts';

/** A browser worker that has started, as a crew sees it. */
export const startedWorker = <Q, R>(worker: Worker): WorkerHandle<Q, R> => ({
  post: (request, transfer = []) => worker.postMessage(request, [...transfer]),
  listen(onReply, onDeath) {
    worker.addEventListener('message', (event) => onReply(event.data));
    onWorkerDeath(worker, onDeath);
  },
  terminate: () => worker.terminate(),
});
