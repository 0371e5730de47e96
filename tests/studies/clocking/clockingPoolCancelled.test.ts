import { expect, it } from 'vitest';
import { ClockingPool, type ClockingWork } from '../../../src/studies/clocking/clockingPool.ts';
import type { ClockingReply, ClockingRequest } from '../../../src/studies/clocking/clockingProtocol.ts';
import type { Profile } from '../../../src/studies/clocking/profile.ts';

/**
 * A worker that replies to queued requests when `catchUp` is called. A profile contains the required margin that it
 * was made with.
 */
function slowWorker() {
  const queued: ClockingRequest[] = [];
  let send: (reply: ClockingReply) => void = () => {};
  let leastMm: number | undefined;
  return {
    handle: {
      post: (request: ClockingRequest) => void queued.push(request),
      listen(onReply: (reply: ClockingReply) => void) {
        send = onReply;
      },
      terminate() {},
    },
    /** Replies until no request is queued. */
    async catchUp(): Promise<void> {
      for (let request = queued.shift(); request !== undefined; request = queued.shift()) {
        if (request.kind === 'setMargin') leastMm = request.minMarginMm;
        if (request.kind === 'setCorner' || request.kind === 'setMargin') send({ kind: request.kind });
        if (request.kind === 'profile')
          send({ kind: 'profile', profile: { marginMm: Float64Array.of(leastMm ?? 0) } as Profile });
        await new Promise((resolve) => setTimeout(resolve, 0));
      }
    },
  };
}

it('uses the newest required margin after a study is cancelled while its corner is being sent', async () => {
  const worker = slowWorker();
  const pool = new ClockingPool(() => worker.handle, 1);
  const margins: number[] = [];
  const work: ClockingWork = {
    setup: {} as ClockingWork['setup'],
    bodies: [],
    minMarginMm: 1,
    pairs: 1,
    toEstimate: [],
    onEstimate() {},
    onProfile: (_, { marginMm }) => void margins.push(marginMm[0]),
  };
  const first = new AbortController();
  const before = pool.measure({ ...work, signal: first.signal });
  first.abort(new Error('superseded'));
  await expect(before).rejects.toThrow('superseded');
  const next = pool.measure({ ...work, minMarginMm: 5 });
  await worker.catchUp();
  await next;
  expect(margins).toEqual([5]);
});
