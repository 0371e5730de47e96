import { expect, it } from 'vitest';
import { ClockingCrew, type CrewWork } from '../../../src/studies/clocking/clockingCrew.ts';
import type { ClockingReply, ClockingRequest } from '../../../src/studies/clocking/clockingDesk.ts';
import type { Profile } from '../../../src/studies/clocking/profile.ts';

/** A worker that answers in order, one request each time it is let; a profile tells the least margin it was made with. */
function slowWorker() {
  const asked: ClockingRequest[] = [];
  let tell: (reply: ClockingReply) => void = () => {};
  let leastMm: number | undefined;
  return {
    handle: {
      post: (request: ClockingRequest) => void asked.push(request),
      listen(onReply: (reply: ClockingReply) => void) {
        tell = onReply;
      },
      terminate() {},
    },
    /** Answers until nothing more is asked. */
    async catchUp(): Promise<void> {
      for (let request = asked.shift(); request !== undefined; request = asked.shift()) {
        if (request.kind === 'want') leastMm = request.leastMm;
        if (request.kind === 'take' || request.kind === 'want') tell({ kind: request.kind });
        if (request.kind === 'profile')
          tell({ kind: 'profile', profile: { marginMm: Float64Array.of(leastMm ?? 0) } as Profile });
        await new Promise((resolve) => setTimeout(resolve, 0));
      }
    },
  };
}

it('a study that is called off while the corner is on its way leaves its least margin to the next one', async () => {
  const worker = slowWorker();
  const crew = new ClockingCrew(() => worker.handle, 1);
  const told: number[] = [];
  const work: CrewWork = {
    setup: {} as CrewWork['setup'],
    bodies: [],
    leastMm: 1,
    pairs: 1,
    looked: [],
    onLook() {},
    onProfile: (_, { marginMm }) => void told.push(marginMm[0]),
  };
  const first = new AbortController();
  const before = crew.measure({ ...work, signal: first.signal });
  first.abort(new Error('other wants'));
  await expect(before).rejects.toThrow('other wants');
  const next = crew.measure({ ...work, leastMm: 5 });
  await worker.catchUp();
  await next;
  expect(told).toEqual([5]);
});
