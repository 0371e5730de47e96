import { Crew } from './crew.ts';
import type { WorkerHandle } from './member.ts';
import { onWorkerDeath } from './workerDeath.ts';

const startWorker = (): Worker =>
  new Worker(new URL('./browserWorker.ts', import.meta.url), { type: 'module' });

/**
 * A worker that starts when it is first told something: those that are to sweep a corner do not take the cores from the one
 * that builds it, nor from the page that loads.
 */
function workerInWaiting(): WorkerHandle {
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
 * A crew of browser workers; `workers` of them, by default as many as leave one core to the page, which else answers late
 * while they work. They run until the crew is ended.
 */
export const crewOfWorkers = (workers = Math.max(1, (navigator.hardwareConcurrency ?? 2) - 1)): Crew =>
  new Crew(workerInWaiting, workers);
