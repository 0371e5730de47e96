import { availableParallelism } from 'node:os';
import { Worker } from 'node:worker_threads';
import type { SweepResult } from '../sweep/result.ts';
import type { Setup } from '../sweep/setUp.ts';
import type { SweepOptions } from './options.ts';
import { sweepWithWorkers, type WorkerHandle } from './protocol.ts';

function startThread(): WorkerHandle {
  const worker = new Worker(new URL('./nodeWorkerEntry.js', import.meta.url));
  return {
    post: (request) => worker.postMessage(request),
    listen(onReply, onDeath) {
      worker.on('message', onReply);
      worker.on('error', (error) => onDeath(error.message));
      worker.on('exit', (code) => onDeath(`it ended with code ${code}`));
    },
    terminate: () => void worker.terminate(),
  };
}

/** Sweeps on Node worker threads; `threads` of them, by default one a core. */
export function sweepInThreads(
  setup: Setup,
  options: SweepOptions & { threads?: number } = {},
): Promise<SweepResult> {
  return sweepWithWorkers(setup, startThread, options.threads ?? availableParallelism(), options);
}
