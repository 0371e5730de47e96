import type { WorkerHandle } from './poolWorker.ts';
import { onWorkerDeath } from './workerDeath.ts';
import { WorkerPool } from './workerPool.ts';

const startWorker = (): Worker =>
  new Worker(new URL('./browserWorker.ts', import.meta.url), { type: 'module' });

/**
 * A worker that starts with its first request. Workers that are not needed yet take no processor time from the
 * corner's builder or from the page as it loads.
 */
function lazyWorker(): WorkerHandle {
  let worker: Worker | undefined;
  let listen = (_: Worker) => {};
  return {
    post(request, transfer = []) {
      if (worker === undefined) {
        worker = startWorker();
        listen(worker);
      }
      worker.postMessage(request, [...transfer]);
    },
    listen(onReply, onDeath) {
      listen = (started) => {
        started.addEventListener('message', (event) => onReply(event.data));
        onWorkerDeath(started, onDeath);
      };
    },
    terminate: () => worker?.terminate(),
  };
}

/**
 * Starts a pool of browser workers. By default one processor core is left to the page, which would otherwise respond
 * late. The workers run until the pool is ended. `Pool`: the class of the pool.
 */
export const startBrowserPool = (
  workers = Math.max(1, (navigator.hardwareConcurrency ?? 2) - 1),
  Pool: new (...args: ConstructorParameters<typeof WorkerPool>) => WorkerPool = WorkerPool,
): WorkerPool => new Pool(lazyWorker, workers);
