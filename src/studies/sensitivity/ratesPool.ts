import { PoolWorker, type WorkerHandle } from '../../executors/poolWorker.ts';
import type { MeasureRates } from './measureRates.ts';
import type { RatesReply, RatesRequest } from './ratesProtocol.ts';
import type { ValueRates } from './variants.ts';

/**
 * Measures rates on workers, one value at a time on each. A value has the same rates on any worker, so the result is that
 * of the calling thread. The workers start with the work and end with it. If a worker dies, the work rejects with an Error.
 */
export const measureRatesBy =
  (startWorker: () => WorkerHandle<RatesRequest, RatesReply>, workerCount: number): MeasureRates =>
  async ({ design, settings, inputs, pairs, signal, onDone }) => {
    type Found = ValueRates<(typeof pairs)[number]>;
    signal?.throwIfAborted();
    if (pairs.length === 0) return [];
    const workers = Array.from(
      { length: Math.min(workerCount, inputs.length) },
      () => new PoolWorker(startWorker(), 'a worker that changes values'),
    );
    const files = { text: JSON.stringify(design.source), assets: design.assets };
    const found: Found[] = [];
    let [next, done] = [0, 0];
    let onAbort = () => {};
    const cancelled = new Promise<never>((_, reject) => {
      onAbort = () => reject(signal?.reason);
      signal?.addEventListener('abort', onAbort, { once: true });
    });
    const work = async (worker: (typeof workers)[number]) => {
      await worker.request({ kind: 'setCorner', files, settings, pairs });
      while (next < inputs.length) {
        const k = next++;
        const { problems, rates } = await worker.request({ kind: 'rates', input: inputs[k] });
        found[k] = { problems, rates: new Map(rates.map(([pair, rate]) => [pairs[pair], rate])) };
        onDone?.(++done);
      }
    };
    try {
      await Promise.race([Promise.all(workers.map(work)), cancelled]);
    } finally {
      signal?.removeEventListener('abort', onAbort);
      for (const worker of workers) worker.end();
    }
    return found;
  };
