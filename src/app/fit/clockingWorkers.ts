import { startedWorker } from '../../executors/startedWorker.ts';
import { ClockingCrew } from '../../studies/clocking/clockingCrew.ts';

const startWorker = (): Worker =>
  new Worker(new URL('./clockingWorker.ts', import.meta.url), { type: 'module' });

/**
 * Browser workers that measure the pairs of a clocking study; `workers` of them, by default one for each core: for the few
 * seconds that a study takes the page gets by on what they leave it. They run until the crew is ended.
 */
export const clockingWorkers = (workers = navigator.hardwareConcurrency ?? 2): ClockingCrew =>
  new ClockingCrew(() => startedWorker(startWorker()), workers);
