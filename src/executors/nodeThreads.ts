import { availableParallelism } from 'node:os';
import { type TransferListItem, Worker } from 'node:worker_threads';
import type { WorkerHandle } from './poolWorker.ts';
import { inSharedMemory } from './sharedMemory.ts';
import { WorkerPool } from './workerPool.ts';

/**
 * Size of the young generation of a thread that produces little garbage, MB; by default Node reserves tens of MB more for
 * each.
 */
const YOUNG_MB = 6;

/** Whether this runs from TypeScript sources. In a build, all thread modules are in one folder. */
const IS_SOURCE = import.meta.url.endsWith('.ts');

/**
 * Starts a thread that runs a module, which receives requests and replies to them. `maxYoungGenerationSizeMb`: more for a
 * thread that produces much garbage, which is then collected less often. From sources, a module of a build can be given
 * too: a thread takes 2 s of processor time to load the sources, and 0.3 s to load a build.
 */
export function startThread<Q, R>(module: URL, maxYoungGenerationSizeMb = YOUNG_MB): WorkerHandle<Q, R> {
  const entry =
    IS_SOURCE && module.href.endsWith('.ts')
      ? new URL('./nodeWorkerEntry.js', import.meta.url)
      : new URL(module.href.replace(/\.ts$/, '.js'));
  const worker = new Worker(entry, {
    resourceLimits: { maxYoungGenerationSizeMb },
    workerData: module.href,
  });
  return {
    // Node's ports work like those of the web; only their types differ.
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
 * Starts a pool of Node worker threads, by default one for each core. The threads run until the pool is ended. A
 * corner is sent in shared memory: a copy takes some 30 MB and 40 ms of this thread for each worker. `module`: what each
 * thread runs.
 */
export function startThreadPool(
  threads = availableParallelism(),
  module = new URL('./nodeWorker.ts', import.meta.url),
): WorkerPool {
  const shared = new WeakMap<object, object>();
  return new WorkerPool(
    () => startThread(module),
    threads,
    (corner) => inSharedMemory(corner, shared),
  );
}
