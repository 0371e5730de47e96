import type { SweepResult, SweepSettings } from '../sweep/result.ts';
import type { Row } from '../sweep/row.ts';
import type { Setup } from '../sweep/setUp.ts';
import type { SweepOptions } from './options.ts';
import { sweepWithWorkers, type WorkerHandle } from './protocol.ts';

function startWorker(): WorkerHandle {
  const worker = new Worker(new URL('./browserWorker.ts', import.meta.url), { type: 'module' });
  return {
    post: (request) => worker.postMessage(request),
    listen(onReply, onDeath) {
      worker.addEventListener('message', (event) => onReply(event.data));
      worker.addEventListener('error', (event) => onDeath(event.message));
    },
    terminate: () => worker.terminate(),
  };
}

/** Sweeps on browser workers; `threads` of them, by default one a core. */
export function sweepInWorkers(
  setup: Setup,
  options: SweepOptions & { threads?: number } = {},
): Promise<SweepResult> {
  return sweepWithWorkers(setup, startWorker, options.threads ?? navigator.hardwareConcurrency ?? 2, options);
}

/** Measures single poses of one corner in a worker of its own, for scrubbing. The newest question wins. */
export class PoseProbe {
  private readonly worker = startWorker();
  private busy = true;
  private waiting: { travelMm: number; steer: number } | undefined;

  /**
   * Opens the corner. `onRow` gets every pair at a pose that was asked for (a row of one step); `onFailure` the words
   * of a worker that can do no more.
   */
  constructor(
    designText: string,
    settings: SweepSettings,
    onRow: (travelMm: number, steer: number, row: Row) => void,
    onFailure: (why: string) => void,
  ) {
    this.worker.listen((reply) => {
      if (reply.kind === 'problems') return onFailure(reply.problems.map((one) => one.message).join('; '));
      if (reply.kind === 'failed') return onFailure(reply.message);
      this.busy = false;
      if (reply.kind === 'pose') onRow(reply.travelMm, reply.steer, reply.row);
      const next = this.waiting;
      this.waiting = undefined;
      if (next !== undefined) this.ask(next.travelMm, next.steer);
    }, onFailure);
    this.worker.post({ kind: 'open', designText, settings });
  }

  /** Asks for a pose; while one is being measured, only the last asked for is kept. */
  ask(travelMm: number, steer: number): void {
    if (this.busy) {
      this.waiting = { travelMm, steer };
      return;
    }
    this.busy = true;
    this.worker.post({ kind: 'pose', travelMm, steer });
  }

  end(): void {
    this.worker.terminate();
  }
}
