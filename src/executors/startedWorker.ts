import type { WorkerHandle } from './poolWorker.ts';
import { onWorkerDeath } from './workerDeath.ts';

/** The handle of a browser worker that has already started. */
export const startedWorker = <Q, R>(worker: Worker): WorkerHandle<Q, R> => ({
  post: (request, transfer = []) => worker.postMessage(request, [...transfer]),
  listen(onReply, onDeath) {
    worker.addEventListener('message', (event) => onReply(event.data));
    onWorkerDeath(worker, onDeath);
  },
  terminate: () => worker.terminate(),
});
