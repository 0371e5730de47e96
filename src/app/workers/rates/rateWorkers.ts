import { startedWorker } from '../../../executors/startedWorker.ts';
import type { MeasureRates } from '../../../studies/sensitivity/measureRates.ts';
import { measureRatesBy } from '../../../studies/sensitivity/ratesPool.ts';

/** Measures rates on browser workers, one for each core. */
export const rateWorkers = (): MeasureRates =>
  measureRatesBy(
    () => startedWorker(new Worker(new URL('./ratesWorker.ts', import.meta.url), { type: 'module' })),
    navigator.hardwareConcurrency ?? 2,
  );
