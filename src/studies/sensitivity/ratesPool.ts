import { deal } from '../../executors/deal.ts';
import { PoolWorker, type WorkerHandle } from '../../executors/poolWorker.ts';
import type { MeasureRates } from './measureRates.ts';
import type { RatesReply, RatesRequest } from './ratesProtocol.ts';
import type { ValueRates } from './variants.ts';

/** Workers that measure rates. They run until the pool is ended. */
export interface RatesPool {
  /** Rejects with an Error if a worker dies, and with the signal's reason when cancelled. */
  measure: MeasureRates;
  /** Ends the workers, after a study or instead of it. */
  end(): void;
}

/**
 * Starts workers that measure rates, one value at a time on each. A value has the same rates on any worker, so the result is
 * that of the calling thread. Start them before the sweep of a study: they load in the meantime.
 */
export function startRatesPool(
  startWorker: () => WorkerHandle<RatesRequest, RatesReply>,
  workerCount: number,
): RatesPool {
  const workers = Array.from(
    { length: workerCount },
    () => new PoolWorker(startWorker(), 'a worker that changes values'),
  );
  return {
    async measure({ design, settings, inputs, pairs, signal, onDone }) {
      type Found = ValueRates<(typeof pairs)[number]>;
      signal?.throwIfAborted();
      if (pairs.length === 0) return [];
      const files = { text: JSON.stringify(design.source), assets: design.assets };
      const found: Found[] = [];
      let done = 0;
      await deal(
        workers,
        inputs,
        {
          prepare: (worker) => worker.request({ kind: 'setCorner', files, settings, pairs }),
          async work(worker, input, k) {
            const { problems, rates } = await worker.request({ kind: 'rates', input });
            found[k] = { problems, rates: new Map(rates.map(([pair, rate]) => [pairs[pair], rate])) };
            onDone?.(++done);
          },
        },
        signal,
      );
      return found;
    },
    end() {
      for (const worker of workers) worker.end();
    },
  };
}
