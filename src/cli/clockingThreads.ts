import { availableParallelism } from 'node:os';
import { startThread } from '../executors/nodeThreads.ts';
import { ClockingPool } from '../studies/clocking/clockingPool.ts';

/**
 * Starts threads that measure the pairs of a clocking study, by default one for each core. They run until `end`. `module`:
 * what each thread runs.
 */
export const clockingThreads = (
  threads = availableParallelism(),
  module = new URL('./clockingThread.ts', import.meta.url),
): ClockingPool => new ClockingPool(() => startThread(module), threads);
