import { availableParallelism } from 'node:os';
import { startThread } from '../executors/nodeThreads.ts';
import type { MeasureRates } from '../studies/sensitivity/measureRates.ts';
import { measureRatesBy } from '../studies/sensitivity/ratesPool.ts';

/** Measures rates on threads, by default one for each core. */
export const rateThreads = (threads = availableParallelism()): MeasureRates =>
  measureRatesBy(() => startThread(new URL('./ratesThread.ts', import.meta.url)), threads);
