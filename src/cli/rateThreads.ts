import { availableParallelism } from 'node:os';
import { startThread } from '../executors/nodeThreads.ts';
import { type RatesPool, startRatesPool } from '../studies/sensitivity/ratesPool.ts';

/** Builders of solids and trees produce much garbage. */
const YOUNG_MB = 48;

/** Starts threads that measure rates, by default one for each core. */
export const rateThreads = (threads = availableParallelism()): RatesPool =>
  startRatesPool(() => startThread(new URL('./ratesThread.ts', import.meta.url), YOUNG_MB), threads);
