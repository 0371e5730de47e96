import { availableParallelism } from 'node:os';
import { startThread } from '../executors/nodeThreads.ts';
import { ClockingPool } from '../studies/clocking/clockingPool.ts';

/** Starts threads that measure the pairs of a clocking study, by default one for each core. They run until `end`. */
export const clockingThreads = (threads = availableParallelism()): ClockingPool =>
  new ClockingPool(() => startThread(new URL('./clockingThread.ts', import.meta.url)), threads);
