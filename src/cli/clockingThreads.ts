import { availableParallelism } from 'node:os';
import { startThread } from '../executors/nodeThreads.ts';
import { ClockingCrew } from '../studies/clocking/clockingCrew.ts';

/** Threads that measure the pairs of a clocking study; `threads` of them, by default one a core. They run until the crew is ended. */
export const clockingThreads = (threads = availableParallelism()): ClockingCrew =>
  new ClockingCrew(() => startThread(new URL('./clockingThread.ts', import.meta.url)), threads);
