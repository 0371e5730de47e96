import { getEventListeners } from 'node:events';
import { describe, expect, it } from 'vitest';
import { parseDesign } from '../../src/design/parse.ts';
import { DesignProblems } from '../../src/design/problem.ts';
import { Crew } from '../../src/executors/crew.ts';
import { proveInProcess, sweepInProcess } from '../../src/executors/inProcess.ts';
import type { WorkerHandle } from '../../src/executors/member.ts';
import { crewOfThreads } from '../../src/executors/nodeThreads.ts';
import type { SweepOptions } from '../../src/executors/options.ts';
import { PoseProbe } from '../../src/executors/poseProbe.ts';
import { type Reply, type Request, serve } from '../../src/executors/protocol.ts';
import { limitsOf } from '../../src/sweep/limits.ts';
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
function localWorker(meddle: (reply: Reply) => Reply | 'die' | 'hang' = (reply) => reply): WorkerHandle {
  let onReply: (reply: Reply) => void = () => {};
  let onDeath: (why: string) => void = () => {};
  let ended = false;
  const answer = serve((message) => {
    if (ended) return;
    const reply = meddle(structuredClone(message));
    if (reply === 'hang') ended = true;
    else if (reply === 'die') onDeath('out of memory');
    else onReply(reply);
  });
  return {
    post: (request: Request, transfer = []) => answer(structuredClone(request, { transfer: [...transfer] })),
    listen(reply, death) {
      onReply = reply;
      onDeath = death;
    },
    terminate() {
      ended = true;
    },
  };
}

/** The sweep of a corner on a crew that is ended afterwards. */
async function sweepOn(crew: Crew, setup: Setup, options: SweepOptions = {}): Promise<SweepResult> {
  try {
    crew.take(setup);
    return await crew.sweep(options);
  } finally {
    crew.end();
  }
}

const sweepInThreads = (setup: Setup, options: SweepOptions = {}, threads = 2): Promise<SweepResult> =>
  sweepOn(crewOfThreads(threads), setup, options);

describe('executors', () => {
  it('give the same bytes in process, on one thread and on two', async () => {
    const setup = await ready();
    const here = bytes(await sweepInProcess(setup));
    expect(Object.keys(here)).toHaveLength(10);
    for (const threads of [1, 2]) {
      const there = bytes(await sweepInThreads(setup, {}, threads));
      for (const [name, buffer] of Object.entries(here)) {
        expect(there[name].equals(buffer), `${name} on ${threads} threads`).toBe(true);
      }
    }
  });

  it('give the same limits on a thread as in process, and refuse those of a corner held no more', async () => {
    const setup = await ready();
    const { design, mechanism, travelMm, steer } = setup;
    const here = limitsOf(design.corner, mechanism, travelMm, steer);
    expect(here.length).toBeGreaterThan(2);
    const crew = crewOfThreads(1);
    try {
      crew.take(setup);
      expect(await crew.limits()).toEqual(here);
      const superseded = crew.limits();
      crew.take(setup);
      await expect(superseded).rejects.toThrow('another corner has been opened');
    } finally {
      crew.end();
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

  it('stop dealing out work when cancelled, and do what they are asked next', async () => {
    const setup = await ready();
    const rows: number[] = [];
    const crew = new Crew(
      () =>
        localWorker((reply) => {
          if (reply.kind === 'band') rows.push(...reply.rows.map((row) => row.poseState.length));
          return reply;
        }),
      2,
    );
    crew.take(setup);
    const controller = new AbortController();
    const off = crew.sweep({
      signal: controller.signal,
      onProgress: () => controller.abort(new Error('changed')),
    });
    await expect(off).rejects.toThrow('changed');
    const again = await crew.sweep();
    // Of the sweep that was called off no more is computed than was in hand: two rows a worker.
    expect(rows.length).toBeLessThanOrEqual(4 + SETTINGS.travelSteps);
    expect(bytes(again)).toEqual(bytes(await sweepInProcess(setup)));
    crew.end();
  });

  it.each(['cancelled', 'of an earlier corner'])(
    'replace a worker that does not come to an end of work that is %s',
    async (why) => {
      const setup = await ready();
      const result = await sweepInProcess(setup);
      let started = 0;
      const crew = new Crew(() => {
        const isFirst = ++started === 1;
        return localWorker((reply) => (isFirst && reply.kind === 'prove' ? 'hang' : reply));
      }, 2);
      crew.take(setup);
      const controller = new AbortController();
      const off = crew.prove(result, { signal: controller.signal });
      // The other one has then proved all that was left for it.
      await Promise.race([off, new Promise((resolve) => setTimeout(resolve, 100))]);
      if (why === 'cancelled') controller.abort(new Error('enough'));
      else crew.take(setup);
      await expect(off).rejects.toThrow(why === 'cancelled' ? 'enough' : 'another corner');
      expect(bytes(await crew.sweep())).toEqual(bytes(result));
      expect(await crew.prove(result)).toEqual(await proveInProcess(setup, result));
      expect(started).toBe(3);
      crew.end();
    },
  );

  it('keep workers that take long to load when another corner is opened meanwhile', async () => {
    const setup = await ready();
    const LOADING_MS = 1500;
    let started = 0;
    const crew = new Crew(() => {
      started += 1;
      const worker = localWorker();
      const isBuilder = started === 3;
      const loaded = new Promise((resolve) => setTimeout(resolve, isBuilder ? 0 : LOADING_MS));
      return { ...worker, post: (...request) => void loaded.then(() => worker.post(...request)) };
    }, 2);
    const text = JSON.stringify(minimalCorner());
    let drawn = () => {};
    await crew.open(text, SETTINGS, () => new Promise((resolve) => (drawn = () => resolve(undefined))));
    await crew.open(text, SETTINGS);
    const sweep = crew.sweep();
    // The workers are on their way to the second corner when the first one is drawn.
    await new Promise((resolve) => setTimeout(resolve, 100));
    drawn();
    expect(bytes(await sweep)).toEqual(bytes(await sweepInProcess(setup)));
    expect(started).toBe(3);
    crew.end();
  });

  it('report the cells that a proof has looked at within a pair', async () => {
    const setup = await ready();
    const result = await sweepInProcess(setup);
    const crew = new Crew(() => {
      let emit: (reply: Reply) => void = () => {};
      const worker = localWorker((reply) => {
        if (reply.kind === 'prove') emit({ kind: 'underway', cells: reply.proved.cells });
        return reply;
      });
      return {
        ...worker,
        listen(onReply, onDeath) {
          emit = onReply;
          worker.listen(onReply, onDeath);
        },
      };
    }, 1);
    crew.take(setup);
    const seen: number[] = [];
    const { pairs } = await crew.prove(result, { onCells: (cells) => seen.push(cells) });
    expect(seen.length).toBeGreaterThanOrEqual(pairs.length);
    expect(seen.at(-1)).toBe(pairs.reduce((sum, { cells }) => sum + cells, 0));
    crew.end();
  });

  it('leave nothing on a signal that sees many sweeps', async () => {
    const setup = await ready();
    const { signal } = new AbortController();
    const crew = new Crew(() => localWorker(), 1);
    crew.take(setup);
    for (let k = 0; k < 3; k++) await crew.sweep({ signal });
    expect(getEventListeners(signal, 'abort')).toEqual([]);
    crew.end();
  });

  it('prove the same in process, on one thread and on two', async () => {
    const setup = await ready();
    const result = await sweepInProcess(setup);
    const here = await proveInProcess(setup, result);
    expect(here.pairs).toHaveLength(result.pairs.length);
    for (const threads of [1, 2]) {
      const crew = crewOfThreads(threads);
      crew.take(setup);
      const seen: number[] = [];
      expect(await crew.prove(result, { onProgress: (done) => seen.push(done) })).toEqual(here);
      expect(seen).toEqual(result.pairs.map((_, p) => p + 1));
      const off = crew.prove(result, { signal: AbortSignal.abort(new Error('not now')) });
      await expect(off).rejects.toThrow('not now');
      await expect(crew.prove(result, { toleranceMm: 0 })).rejects.toThrow('a tolerance above 0');
      crew.end();
    }
  });

  it('hand a corner that one worker has built to the others', async () => {
    const setup = await ready();
    const crew = new Crew(() => localWorker(), 2);
    const built = await crew.open(JSON.stringify(minimalCorner()), SETTINGS);
    expect(built.solids.map(({ id }) => id)).toEqual(setup.solids.map(({ id }) => id));
    expect(built).not.toHaveProperty('bodies');
    expect(bytes(await crew.sweep())).toEqual(bytes(await sweepInProcess(setup)));
    const { row } = await crew.prober.ask({
      kind: 'pose',
      travelMm: setup.travelMm[1],
      steer: setup.steer[2],
    });
    const expected = new RowSweeper(setup).sweep(setup.travelMm[1], setup.steer.slice(2));
    expect(row).toEqual(expected);
    crew.end();
  });

  it('drop what they do for a corner when another is opened, and keep the old one when the new is bad', async () => {
    const crew = new Crew(() => localWorker(), 2);
    const text = JSON.stringify(minimalCorner());
    await crew.open(text, SETTINGS);
    const bad = crew.open(JSON.stringify({ format: 'daylight.corner' }), SETTINGS);
    await expect(bad).rejects.toBeInstanceOf(DesignProblems);
    const result = await crew.sweep();
    const changed = { ...minimalCorner(), name: 'Changed' };
    changed.suspension.camberDeg = -2;
    const old = crew.sweep();
    const opening = crew.open(JSON.stringify(changed), { ...SETTINGS, travelSteps: 3 });
    await expect(old).rejects.toThrow('another corner has been opened');
    expect((await opening).design.corner.name).toBe('Changed');
    const after = await crew.sweep();
    expect(after.travelMm).toHaveLength(3);
    expect(after.designHash).not.toBe(result.designHash);
    crew.end();
  });

  it('measure the last pose asked for when several were asked for at once', async () => {
    const setup = await ready();
    const crew = new Crew(() => localWorker(), 1);
    await crew.open(JSON.stringify(minimalCorner()), SETTINGS);
    const seen: number[] = [];
    const failures: string[] = [];
    const probe = new PoseProbe(
      crew.prober,
      (travelMm) => seen.push(travelMm),
      (why) => failures.push(why),
    );
    for (const travelMm of [1, 2, 3]) probe.ask(travelMm, 0);
    await expect.poll(() => seen).toEqual([1, 3]);
    for (const travelMm of [4, 5, 6]) probe.ask(travelMm, 0);
    await expect.poll(() => seen).toEqual([1, 3, 4, 6]);
    probe.end();
    probe.ask(7, 0);
    expect(failures).toEqual([]);
    expect(setup.pairs.length).toBeGreaterThan(0);
  });

  it('a worker that dies or fails ends the sweep with its words', async () => {
    const setup = await ready();
    let bands = 0;
    const dying = new Crew(
      () => localWorker((reply) => (reply.kind === 'band' && ++bands === 3 ? 'die' : reply)),
      2,
    );
    await expect(sweepOn(dying, setup)).rejects.toThrow('a sweep worker died: out of memory');
    expect(dying.alive).toBe(false);
    const failing = new Crew(
      () => localWorker((reply) => (reply.kind === 'take' ? { kind: 'failed', message: 'no luck' } : reply)),
      2,
    );
    await expect(sweepOn(failing, setup)).rejects.toThrow('no luck');
  });

  it('a corner that one worker cannot hand on ends the sweep with its words, and the crew', async () => {
    const crew = new Crew(
      () => localWorker((reply) => (reply.kind === 'share' ? { kind: 'failed', message: 'no room' } : reply)),
      2,
    );
    await crew.open(JSON.stringify(minimalCorner()), SETTINGS);
    await expect(crew.sweep()).rejects.toThrow('no room');
    expect(crew.alive).toBe(false);
  });

  it('end with a real thread that is ended while it works, and return nothing', async () => {
    const crew = crewOfThreads(2);
    crew.take(await ready());
    await expect(crew.sweep({ onProgress: () => crew.end() })).rejects.toThrow(/ended/);
    expect(crew.alive).toBe(false);
    await expect(crew.sweep()).rejects.toThrow(/ended/);
  });

  it('a corner that a worker finds bad comes back as its problems', async () => {
    const crew = new Crew(() => localWorker(), 2);
    const bad = crew.open(JSON.stringify({ format: 'daylight.corner' }), SETTINGS);
    await expect(bad).rejects.toBeInstanceOf(DesignProblems);
    crew.end();
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
