import { availableParallelism } from 'node:os';
import { type TransferListItem, Worker } from 'node:worker_threads';
import { Crew } from './crew.ts';
import type { WorkerHandle } from './member.ts';
import { inSharedMemory } from './sharedMemory.ts';

/** A thread makes little garbage at a time; left to itself Node keeps tens of MB more of it for each. */
const LIMITS = { maxYoungGenerationSizeMb: 6 };

/** Whether this runs as it is written; else the build has put it and all modules of threads into one folder. */
const IS_SOURCE = import.meta.url.endsWith('.ts');

/** A thread that runs a module, which receives requests and replies to them. */
export function startThread<Q, R>(module: URL): WorkerHandle<Q, R> {
  const start = IS_SOURCE
    ? new URL('./nodeWorkerEntry.js', import.meta.url)
    : new URL(module.href.replace(/\.ts$/, '.js'));
  const worker = new Worker(start, { resourceLimits: LIMITS, workerData: module.href });
  return {
    // The ports of Node are those of the web, but for their types.
    post: (request, transfer) =>
      worker.postMessage(request, transfer as readonly object[] as TransferListItem[]),
    listen(onReply, onDeath) {
      worker.on('message', onReply);
      worker.on('error', (error) => onDeath(error.message));
      worker.on('exit', (code) => onDeath(`it ended with code ${code}`));
    },
    terminate: () => void worker.terminate(),
  };
}

/**
 * A crew of Node worker threads; `threads` of them, by default one a core. They run until the crew is ended. A corner is
 * handed to them in shared memory: a copy takes some 30 MB and 40 ms of this thread for each.
 */
export function crewOfThreads(threads = availableParallelism()): Crew {
  const shared = new WeakMap<object, object>();
  return new Crew(
    () => startThread(new URL('./nodeWorker.ts', import.meta.url)),
    threads,
    (setup) => inSharedMemory(setup, shared),
  );
}
