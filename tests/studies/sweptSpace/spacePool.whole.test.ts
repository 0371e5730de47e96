import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { startSpacePool } from '../../../src/studies/sweptSpace/spacePool.ts';
import { serveSpace } from '../../../src/studies/sweptSpace/spaceProtocol.ts';
import { type SpaceOptions, sweptSpace } from '../../../src/studies/sweptSpace/sweptSpace.ts';
import { readDesign } from '../../design/readDesign.ts';
import { localWorker } from '../../executors/localWorker.ts';
import { digest } from '../../oracles/digest.ts';

const { corner } = readDesign(readFileSync('demo-data/larkrise.corner.json', 'utf8'));
const REQUEST = {
  travelMm: [-20, 20],
  steer: [-0.3, 0.4],
  growthMm: 0,
  marginMm: 0,
  withinMm: 45,
  planes: [],
} as const;
const spaceWith = (options: SpaceOptions) => sweptSpace(corner, REQUEST, options);

describe('the space on workers', () => {
  it('is that of the calling thread to the last bit, on any number of workers', async () => {
    const { solid } = await spaceWith({});
    for (const count of [1, 3]) {
      const workers: ReturnType<typeof localWorker>[] = [];
      const pool = startSpacePool(() => {
        const worker = localWorker(serveSpace);
        workers.push(worker);
        return worker.handle;
      }, count);
      const shares: number[] = [];
      const found = await spaceWith({
        measure: pool.measure,
        onProgress: (share) => void shares.push(share),
      });
      expect(digest(found.solid)).toBe(digest(solid));
      pool.end();
      expect([workers.length, workers.every(({ isEnded }) => isEnded())]).toEqual([count, true]);
      expect(shares).toEqual(shares.map((_, k) => (k + 1) / shares.length));
      expect(shares.length, 'blocks').toBeGreaterThan(10);
    }
  }, 60_000);

  it('rejects if a worker dies, and with the reason of a cancellation', async () => {
    const dying = localWorker(serveSpace, 2);
    await expect(spaceWith({ measure: startSpacePool(() => dying.handle, 1).measure })).rejects.toThrow(
      'a worker that computes the space died: out of memory',
    );
    const cancelled = localWorker(serveSpace);
    const control = new AbortController();
    const space = spaceWith({
      measure: startSpacePool(() => cancelled.handle, 1).measure,
      signal: control.signal,
      onProgress: () => control.abort(new Error('superseded')),
    });
    await expect(space).rejects.toThrow('superseded');
  }, 60_000);
});
