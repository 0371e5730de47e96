import { startedWorker } from '../../../executors/startedWorker.ts';
import { ClockingPool } from '../../../studies/clocking/clockingPool.ts';

const startWorker = (): Worker =>
  new Worker(new URL('./clockingWorker.ts', import.meta.url), { type: 'module' });

/**
 * Starts browser workers that measure the pairs of a clocking study, by default one for each core. A study takes a few
 * seconds, so no core is kept free for the page. The workers run until the pool is ended.
 */
export const clockingWorkers = (workers = navigator.hardwareConcurrency ?? 2): ClockingPool =>
  new ClockingPool(() => startedWorker(startWorker()), workers);
