import { describe, expect, it } from 'vitest';
import { startRatesPool } from '../../../src/studies/sensitivity/ratesPool.ts';
import { serveRates } from '../../../src/studies/sensitivity/ratesProtocol.ts';
import { sensitivityOf } from '../../../src/studies/sensitivity/sensitivity.ts';
import { readDesign } from '../../design/readDesign.ts';
import { localWorker } from '../../executors/localWorker.ts';
import { box, boxCorner, FEW_STEPS } from '../vary/boxCorner.ts';

/** Two pairs: one is clear, the other overlaps at full bump. */
const DESIGN = readDesign(
  boxCorner([
    box('rising', 'upright', [0, 640, 350], [40, 40, 30]),
    box('fixed', 'chassis', [0, 640, 450], [90, 90, 20]),
    { ...box('turned', 'chassis', [10, 660, 415], [30, 30, 20]), rollDeg: 20, pitchDeg: 10 },
  ]),
);

const effectsWith = async (options: Partial<Parameters<typeof sensitivityOf>[1]>) =>
  (await sensitivityOf(DESIGN, { settings: FEW_STEPS, ...options })).pairs.map(({ finding, effects }) => [
    finding.pair,
    finding.state,
    effects.map(({ value, rate }) => [value.field.name, rate]),
  ]);

describe('rates on workers', () => {
  it('are those of the calling thread, on any number of workers', async () => {
    const here = await effectsWith({});
    expect(here.map(([, state]) => state).sort()).toEqual(['clear', 'touches']);
    for (const count of [1, 3]) {
      const workers: ReturnType<typeof localWorker>[] = [];
      const start = () => {
        const worker = localWorker(serveRates);
        workers.push(worker);
        return worker.handle;
      };
      const done: number[] = [];
      const pool = startRatesPool(start, count);
      const onProgress = (n: number) => void done.push(n);
      expect(await effectsWith({ rates: pool.measure, onProgress })).toEqual(here);
      expect(await effectsWith({ rates: pool.measure })).toEqual(here);
      pool.end();
      expect([workers.length, workers.every(({ isEnded }) => isEnded())]).toEqual([count, true]);
      expect(done).toEqual(done.map((_, k) => k + 1));
      expect(done.length).toBeGreaterThan(10);
    }
  });

  it('reject if a worker dies, and with the reason of a cancellation', async () => {
    const dying = localWorker(serveRates, 2);
    await expect(effectsWith({ rates: startRatesPool(() => dying.handle, 1).measure })).rejects.toThrow(
      'a worker that changes values died: out of memory',
    );
    const cancelled = localWorker(serveRates);
    const control = new AbortController();
    const study = effectsWith({
      rates: startRatesPool(() => cancelled.handle, 1).measure,
      signal: control.signal,
      onProgress: () => control.abort(new Error('superseded')),
    });
    await expect(study).rejects.toThrow('superseded');
  });
});
