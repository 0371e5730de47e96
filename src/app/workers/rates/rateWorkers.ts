import { startedWorker } from '../../../executors/startedWorker.ts';
import { type RatesPool, startRatesPool } from '../../../studies/sensitivity/ratesPool.ts';

/** Starts browser workers that measure rates, one for each core. */
export const rateWorkers = (): RatesPool =>
  startRatesPool(
    () => startedWorker(new Worker(new URL('./ratesWorker.ts', import.meta.url), { type: 'module' })),
    navigator.hardwareConcurrency ?? 2,
  );
