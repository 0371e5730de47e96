import { describe, expect, it } from 'vitest';
import { parseDesign } from '../../src/design/parse.ts';
import { DesignProblems } from '../../src/design/problem.ts';
import { sweepInProcess } from '../../src/executors/inProcess.ts';
import { sweepInThreads } from '../../src/executors/nodeThreads.ts';
import {
  type Reply,
  type Request,
  serve,
  sweepWithWorkers,
  type WorkerHandle,
} from '../../src/executors/protocol.ts';
import type { SweepResult } from '../../src/sweep/result.ts';
import { RowSweeper } from '../../src/sweep/row.ts';
import { type Setup, setUp } from '../../src/sweep/setUp.ts';
import { minimalCorner } from '../design/fixtures.ts';

const SETTINGS = { travelSteps: 5, steerSteps: 3, limitMm: 40, chordToleranceMm: 0.5 };

async function ready(): Promise<Setup> {
  const parsed = parseDesign(JSON.stringify(minimalCorner()));
  if (parsed.kind === 'bad') throw new DesignProblems(parsed.problems);
  return setUp(parsed.design, SETTINGS);
}

const bytes = (result: SweepResult): Record<string, Buffer> =>
  Object.fromEntries(
    Object.entries(result)
      .filter(([, value]) => ArrayBuffer.isView(value))
      .map(([name, value]) => [name, Buffer.from((value as Float64Array).buffer)]),
  );

/** A worker inside this thread that talks through the real protocol; `meddle` may change or swallow its replies. */
function localWorker(meddle: (reply: Reply) => Reply | 'die' = (reply) => reply): WorkerHandle {
  let onReply: (reply: Reply) => void = () => {};
  let onDeath: (why: string) => void = () => {};
  let ended = false;
  const answer = serve((message) => {
    if (ended) return;
    const reply = meddle(structuredClone(message));
    if (reply === 'die') onDeath('out of memory');
    else onReply(reply);
  });
  return {
    post: (request: Request) => answer(structuredClone(request)),
    listen(reply, death) {
      onReply = reply;
      onDeath = death;
    },
    terminate() {
      ended = true;
    },
  };
}

describe('executors', () => {
  it('give the same bytes in process, on one thread and on two', async () => {
    const setup = await ready();
    const here = bytes(await sweepInProcess(setup));
    expect(Object.keys(here)).toHaveLength(10);
    for (const threads of [1, 2]) {
      const there = bytes(await sweepInThreads(setup, { threads }));
      for (const [name, buffer] of Object.entries(here)) {
        expect(there[name].equals(buffer), `${name} on ${threads} threads`).toBe(true);
      }
    }
  });

  it('measure the same at a pose alone as in a sweep', async () => {
    const setup = await ready();
    const result = await sweepInProcess(setup);
    const row = new RowSweeper(setup).sweep(setup.travelMm[1], setup.steer.slice(2));
    const steps = result.poseState.length;
    result.pairs.forEach((_, p) => {
      expect(row.clearanceMm[p]).toBe(result.clearanceMm[p * steps + 1 * 3 + 2]);
    });
  });

  it('tell progress to the end and show what is pending as pending', async () => {
    const setup = await ready();
    const seen: number[] = [];
    const pending: number[] = [];
    await sweepInProcess(setup, {
      onProgress: (done, total) => seen.push(done / total),
      onPartial: (result) => pending.push(result.poseState.filter((state) => state === 0).length),
    });
    expect(seen).toEqual([0.2, 0.4, 0.6, 0.8, 1]);
    expect(pending).toEqual([12, 9, 6, 3, 0]);
  });

  it('stop when cancelled, before and in the middle, and return nothing', async () => {
    const setup = await ready();
    const sweeps = [sweepInProcess, sweepInThreads];
    for (const sweep of sweeps) {
      await expect(sweep(setup, { signal: AbortSignal.abort(new Error('not now')) })).rejects.toThrow(
        'not now',
      );
      const controller = new AbortController();
      const running = sweep(setup, {
        signal: controller.signal,
        onProgress: () => controller.abort(new Error('enough')),
      });
      await expect(running).rejects.toThrow('enough');
    }
  });

  it('a worker that dies or fails ends the sweep with its words, and the others with it', async () => {
    const setup = await ready();
    const dies = () =>
      localWorker((reply) => (reply.kind === 'row' && reply.travelIndex === 2 ? 'die' : reply));
    await expect(sweepWithWorkers(setup, dies, 2)).rejects.toThrow('a sweep worker died: out of memory');
    const fails = () =>
      localWorker((reply) => (reply.kind === 'opened' ? { kind: 'failed', message: 'no luck' } : reply));
    await expect(sweepWithWorkers(setup, fails, 2)).rejects.toThrow('no luck');
  });

  it('a corner that a worker finds bad comes back as its problems', async () => {
    const setup = await ready();
    const bad = { ...setup, design: { ...setup.design, source: { format: 'daylight.corner' } } };
    await expect(sweepWithWorkers(bad, () => localWorker(), 1)).rejects.toBeInstanceOf(DesignProblems);
  });

  it('answer a request before opening with an error in words', async () => {
    const replies: Reply[] = [];
    const answer = serve((message) => replies.push(message));
    answer({ kind: 'pose', travelMm: 0, steer: 0 });
    await expect
      .poll(() => replies)
      .toEqual([{ kind: 'failed', message: expect.stringMatching(/before a corner/) }]);
  });
});
