import { Crew } from './crew.ts';
import type { WorkerHandle } from './member.ts';

function startWorker(): WorkerHandle {
  const worker = new Worker(new URL('./browserWorker.ts', import.meta.url), { type: 'module' });
  return {
    post: (request, transfer = []) => worker.postMessage(request, [...transfer]),
    listen(onReply, onDeath) {
      worker.addEventListener('message', (event) => onReply(event.data));
      worker.addEventListener('error', (event) => onDeath(event.message));
    },
    terminate: () => worker.terminate(),
  };
}

/** A crew of browser workers; `workers` of them, by default one a core. They run until the crew is ended. */
export const crewOfWorkers = (workers = navigator.hardwareConcurrency ?? 2): Crew =>
  new Crew(startWorker, workers);
