import { deal } from '../../executors/deal.ts';
import { PoolWorker, type WorkerHandle } from '../../executors/poolWorker.ts';
import type { MeasureBlocks } from './measureBlocks.ts';
import type { SpaceReply, SpaceRequestMessage } from './spaceProtocol.ts';
import type { MeasuredBlock } from './surfaceBlocks.ts';

/** Workers that measure blocks of a space. They run until the pool is ended. */
export interface SpacePool {
  /** Rejects with an Error if a worker dies, and with the signal's reason when cancelled. */
  measure: MeasureBlocks;
  end(): void;
}

/** Starts workers that measure blocks of a space. A block has the same values on any worker. */
export function startSpacePool(
  startWorker: () => WorkerHandle<SpaceRequestMessage, SpaceReply>,
  workerCount: number,
): SpacePool {
  const workers = Array.from(
    { length: workerCount },
    () => new PoolWorker(startWorker(), 'a worker that computes the space'),
  );
  return {
    async measure({ input, blocks, signal, onDone }) {
      const measured: MeasuredBlock[] = [];
      let done = 0;
      await deal(
        workers,
        blocks.blocks,
        {
          prepare: (worker) => worker.request({ kind: 'setSpace', input }),
          async work(worker, _, index) {
            measured[index] = (await worker.request({ kind: 'block', index })).block;
            onDone(++done);
          },
        },
        signal,
      );
      return measured;
    },
    end() {
      for (const worker of workers) worker.end();
    },
  };
}
