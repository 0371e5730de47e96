import { startedWorker } from '../../../executors/startedWorker.ts';
import { type SpacePool, startSpacePool } from '../../../studies/sweptSpace/spacePool.ts';

/** Starts browser workers that measure blocks of a space, one for each core. */
export const spaceWorkers = (): SpacePool =>
  startSpacePool(
    () => startedWorker(new Worker(new URL('./blocksWorker.ts', import.meta.url), { type: 'module' })),
    navigator.hardwareConcurrency ?? 2,
  );
