import { describe, expect, it } from 'vitest';
import { startRatesPool } from '../../../src/studies/sensitivity/ratesPool.ts';
import { serveRates } from '../../../src/studies/sensitivity/ratesProtocol.ts';
import { type SolidIds, sensitivityOf } from '../../../src/studies/sensitivity/sensitivity.ts';
import { minimalCorner } from '../../design/fixtures.ts';
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

/** Studies of one worker in turn: the corner, and the pair. */
const STUDIES: readonly (readonly [corner: number, pair: SolidIds])[] = [
  [0, ['wheel', 'rotor']],
  [0, ['rotor', 'caliper']],
  [0, ['wheel', 'rotor']],
  [1, ['wheel', 'rotor']],
];

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

  it('are the same after studies of other pairs and of another corner, whose solids a worker keeps', async () => {
    const narrow = minimalCorner();
    narrow.parts = narrow.parts.filter(({ kind }) => ['wheel', 'hub', 'rotor', 'caliper'].includes(kind));
    const wide = {
      ...narrow,
      parts: narrow.parts.map((part) => (part.kind === 'wheel' ? { ...part, width: '9 in' } : part)),
    };
    const corners = [narrow, wide].map(readDesign);
    const settings = { ...FEW_STEPS, chordToleranceMm: 1 };
    const { handle } = localWorker(serveRates);
    const { measure } = startRatesPool(() => handle, 1);
    for (const [k, among] of STUDIES) {
      const studied = async (rates?: typeof measure) =>
        (await sensitivityOf(corners[k], { settings, among: [among], rates })).pairs.map(
          ({ finding, effects }) => [
            finding.worst,
            effects.map(({ value, rate }) => [value.field.name, value.problems, rate]),
          ],
        );
      const fresh = await studied();
      expect(fresh.length).toBe(1);
      expect(await studied(measure)).toEqual(fresh);
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
