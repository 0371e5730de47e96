import { availableParallelism } from 'node:os';
import { startThread } from '../executors/nodeThreads.ts';
import { type RatesPool, startRatesPool } from '../studies/sensitivity/ratesPool.ts';

/** Starts threads that measure rates, by default one for each core. */
export const rateThreads = (threads = availableParallelism()): RatesPool =>
  startRatesPool(() => startThread(new URL('./ratesThread.ts', import.meta.url)), threads);
