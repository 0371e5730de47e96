import { getEventListeners } from 'node:events';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { builtProgram } from '../../src/cli/build.js';
import { assetOf, NO_ASSETS } from '../../src/design/assets.ts';
import { parseDesign } from '../../src/design/parse.ts';
import { proveInProcess, sweepInProcess } from '../../src/executors/inProcess.ts';
import { startThreadPool } from '../../src/executors/nodeThreads.ts';
import type { SweepOptions } from '../../src/executors/options.ts';
import { PoolWorker, type WorkerHandle } from '../../src/executors/poolWorker.ts';
import { PoseProbe } from '../../src/executors/poseProbe.ts';
import { type Reply, type Request, serve } from '../../src/executors/protocol.ts';
import { WorkerPool } from '../../src/executors/workerPool.ts';
import { limitsOf } from '../../src/proof/limits.ts';
import type { Proof } from '../../src/proof/prove.ts';
import type { SweepResult } from '../../src/sweep/result.ts';
import { RowSweeper } from '../../src/sweep/row.ts';
import { type Setup, setUp } from '../../src/sweep/setUp.ts';
import { DesignProblems } from '../../src/units/problem.ts';
import { type CornerInput, minimalCorner } from '../design/fixtures.ts';
import { readDesign } from '../design/readDesign.ts';
import { digest } from '../oracles/digest.ts';

const SETTINGS = { travelSteps: 5, steerSteps: 3, limitMm: 40, chordToleranceMm: 1.4 };

/** Less than half the pairs of the test corner, and all its limits: these tests sweep and prove it many times. */
function corner(): CornerInput {
  const { parts, ...rest } = minimalCorner();
  const kinds = ['wheel', 'hub', 'rotor', 'caliper', 'joint', 'damper'];
  return { ...rest, parts: parts.filter(({ kind }) => kinds.includes(kind)) };
}

let setup: Setup;
/** Its sweep and proof in this thread. */
let swept: SweepResult;
let proved: Proof;
/** A real thread that loads the sources. Starting it takes longer than most of these tests. */
let one: WorkerPool;
/** Real threads of the built program. */
let two: WorkerPool;

beforeAll(async () => {
  setup = await setUp(readDesign(corner()), SETTINGS);
  swept = await sweepInProcess(setup);
  proved = await proveInProcess(setup, swept);
  one = startThreadPool(1);
  two = startThreadPool(2, new URL('nodeWorker.js', await builtProgram()));
});
afterAll(() => {
  one.end();
  two.end();
});

/** A corner without assets, as its files. */
const filesOf = (source: unknown) => ({ text: JSON.stringify(source), assets: NO_ASSETS });

/** The arrays of a result, each as a digest of its bytes. */
const bytes = (result: SweepResult): Record<string, string> =>
  Object.fromEntries(
    Object.entries(result)
      .filter(([, value]) => ArrayBuffer.isView(value))
      .map(([name, value]) => [name, digest(value)]),
  );

/** A worker in this thread that uses the real protocol; `intercept` may change or drop its replies. */
function localWorker(intercept: (reply: Reply) => Reply | 'die' | 'hang' = (reply) => reply): WorkerHandle {
  let onReply: (reply: Reply) => void = () => {};
  let onDeath: (why: string) => void = () => {};
  let ended = false;
  const answer = serve((message) => {
    if (ended) return;
    const reply = intercept(structuredClone(message));
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

/** Sweeps a corner on a pool and ends the pool. */
async function sweepOn(pool: WorkerPool, setup: Setup, options: SweepOptions = {}): Promise<SweepResult> {
  try {
    pool.setCorner(setup);
    return await pool.sweep(options);
  } finally {
    pool.end();
  }
}

/** Sweeps the corner on two real threads. */
function sweepInThreads(options: SweepOptions = {}): Promise<SweepResult> {
  two.setCorner(setup);
  return two.sweep(options);
}

describe('executors', () => {
  it('give identical results in process, on one thread and on two', async () => {
    const here = bytes(swept);
    expect(Object.keys(here)).toHaveLength(10);
    for (const pool of [one, two]) {
      pool.setCorner(setup);
      expect(bytes(await pool.sweep()), `on ${pool === one ? 1 : 2} threads`).toEqual(here);
    }
  });

  it('give identical results with bodies built on threads, and share the same trees', async () => {
    const { bodies, ...built } = setup;
    const prepared = await two.prepare(built);
    expect(bytes(await two.sweep())).toEqual(bytes(swept));
    const treesOf = (pairs: Setup['bodies']) =>
      pairs.flatMap(({ a, b }) => [a.surface, a.whole, b.surface, b.whole]);
    const [mine, theirs] = [treesOf(bodies), treesOf(prepared.bodies)];
    expect(theirs.map((tree) => theirs.indexOf(tree))).toEqual(mine.map((tree) => mine.indexOf(tree)));
  });

  it('compute the same contacts for simultaneous requests', async () => {
    two.setCorner(setup);
    const pairs = setup.pairs.map((_, pair) => pair);
    const found = await Promise.all(pairs.map((pair) => two.contact(pair, 0, 0)));
    expect(found.some((contact) => contact !== undefined)).toBe(true);
    for (const pair of pairs.slice(0, 5)) expect(await two.contact(pair, 0, 0)).toEqual(found[pair]);
  });

  it('give the same limits on a thread as in process, and reject those of a superseded corner', async () => {
    const { design, mechanism, travelMm, steer } = setup;
    const here = limitsOf(design.corner, mechanism, travelMm, steer);
    expect(here.length).toBeGreaterThan(2);
    one.setCorner(setup);
    expect(await one.limits()).toEqual(here);
    const superseded = one.limits();
    one.setCorner(setup);
    await expect(superseded).rejects.toThrow('another corner has been opened');
  });

  it('measure the same at a single pose as in a sweep', async () => {
    const row = new RowSweeper(setup).sweep(setup.travelMm[1], setup.steer.slice(2));
    const steps = swept.poseState.length;
    swept.pairs.forEach((_, p) => {
      expect(row.clearanceMm[p]).toBe(swept.clearanceMm[p * steps + 1 * 3 + 2]);
    });
  });

  it('report progress to the end and mark pending steps as pending', async () => {
    const reported: number[] = [];
    const pending: number[] = [];
    await sweepInProcess(setup, {
      onProgress: (done, total) => reported.push(done / total),
      onPartial: (result) => pending.push(result.poseState.filter((state) => state === 0).length),
    });
    expect(reported).toEqual([0.2, 0.4, 0.6, 0.8, 1]);
    expect(pending).toEqual([12, 9, 6, 3, 0]);
  });

  it('return nothing when cancelled before or during a sweep', async () => {
    const sweeps = [(options: SweepOptions) => sweepInProcess(setup, options), sweepInThreads];
    for (const sweep of sweeps) {
      await expect(sweep({ signal: AbortSignal.abort(new Error('not now')) })).rejects.toThrow('not now');
      const controller = new AbortController();
      const running = sweep({
        signal: controller.signal,
        onProgress: () => controller.abort(new Error('enough')),
      });
      await expect(running).rejects.toThrow('enough');
    }
  });

  it('send no more work after a cancellation, and run the next sweep', async () => {
    const rows: number[] = [];
    const pool = new WorkerPool(
      () =>
        localWorker((reply) => {
          if (reply.kind === 'band') rows.push(...reply.rows.map((row) => row.poseState.length));
          return reply;
        }),
      2,
    );
    pool.setCorner(setup);
    const controller = new AbortController();
    const cancelled = pool.sweep({
      signal: controller.signal,
      onProgress: () => controller.abort(new Error('changed')),
    });
    await expect(cancelled).rejects.toThrow('changed');
    const again = await pool.sweep();
    // The cancelled sweep computes only the requests already sent: two rows for each worker.
    expect(rows.length).toBeLessThanOrEqual(4 + SETTINGS.travelSteps);
    expect(bytes(again)).toEqual(bytes(swept));
    pool.end();
  });

  it.each(['cancelled', 'superseded'])('replace a worker that does not finish %s work', async (why) => {
    let started = 0;
    const pool = new WorkerPool(() => {
      const isFirst = ++started === 1;
      return localWorker((reply) => (isFirst && reply.kind === 'prove' ? 'hang' : reply));
    }, 2);
    pool.setCorner(setup);
    const controller = new AbortController();
    const cancelled = pool.prove(swept, { signal: controller.signal });
    // Gives the other worker time to prove the remaining pairs.
    await Promise.race([cancelled, new Promise((resolve) => setTimeout(resolve, 100))]);
    if (why === 'cancelled') controller.abort(new Error('enough'));
    else pool.setCorner(setup);
    await expect(cancelled).rejects.toThrow(why === 'cancelled' ? 'enough' : 'another corner');
    expect(bytes(await pool.sweep())).toEqual(bytes(swept));
    expect(await pool.prove(swept)).toEqual(proved);
    expect(started).toBe(3);
    pool.end();
  });

  it('keep slowly loading workers when another corner is opened', async () => {
    const LOADING_MS = 1000;
    let started = 0;
    const pool = new WorkerPool(() => {
      started += 1;
      const worker = localWorker();
      const isBuilder = started === 3;
      const loaded = new Promise((resolve) => setTimeout(resolve, isBuilder ? 0 : LOADING_MS));
      return { ...worker, post: (...request) => void loaded.then(() => worker.post(...request)) };
    }, 2);
    let drawn = () => {};
    await pool.open(
      filesOf(corner()),
      SETTINGS,
      () => new Promise((resolve) => (drawn = () => resolve(undefined))),
    );
    await pool.open(filesOf(corner()), SETTINGS);
    const sweep = pool.sweep();
    // The workers wait for the second corner when the first one is drawn.
    await new Promise((resolve) => setTimeout(resolve, 100));
    drawn();
    expect(bytes(await sweep)).toEqual(bytes(swept));
    expect(started).toBe(3);
    pool.end();
  });

  it('report the cells searched within a pair', async () => {
    const pool = new WorkerPool(() => {
      let emit: (reply: Reply) => void = () => {};
      const worker = localWorker((reply) => {
        if (reply.kind === 'prove' && reply.outcome.kind === 'proved')
          emit({ kind: 'progress', cells: reply.outcome.proved.cells });
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
    pool.setCorner(setup);
    const reported: number[] = [];
    const { pairs } = await pool.prove(swept, { onCells: (cells) => reported.push(cells) });
    expect(reported.length).toBeGreaterThanOrEqual(pairs.length);
    expect(reported.at(-1)).toBe(pairs.reduce((sum, { cells }) => sum + cells, 0));
    pool.end();
  });

  it('prove a long pair in parts with the same result as one thread', async () => {
    const setup = await setUp(readDesign(minimalCorner()), { ...SETTINGS, chordToleranceMm: 0.5 });
    const swept = await sweepInProcess(setup);
    // Small enough that proofs are divided.
    const toleranceMm = 0.00001;
    const here = await proveInProcess(setup, swept, { toleranceMm });
    let parts = 0;
    const pool = new WorkerPool(
      () =>
        localWorker((reply) => {
          if (reply.kind === 'part') parts += 1;
          return reply;
        }),
      3,
    );
    pool.setCorner(setup);
    expect(await pool.prove(swept, { toleranceMm })).toEqual(here);
    expect(parts).toBeGreaterThan(30);
    pool.end();
  });

  it('leave no listener on a signal used for many sweeps', async () => {
    const { signal } = new AbortController();
    const pool = new WorkerPool(() => localWorker(), 1);
    pool.setCorner(setup);
    for (let k = 0; k < 3; k++) await pool.sweep({ signal });
    expect(getEventListeners(signal, 'abort')).toEqual([]);
    pool.end();
  });

  it('give the same proof in process, on one thread and on two', async () => {
    expect(proved.pairs).toHaveLength(swept.pairs.length);
    for (const pool of [one, two]) {
      pool.setCorner(setup);
      const reported: number[] = [];
      expect(await pool.prove(swept, { onProgress: (done) => reported.push(done) })).toEqual(proved);
      expect(reported).toEqual(swept.pairs.map((_, p) => p + 1));
      const cancelled = pool.prove(swept, { signal: AbortSignal.abort(new Error('not now')) });
      await expect(cancelled).rejects.toThrow('not now');
      await expect(pool.prove(swept, { toleranceMm: 0 })).rejects.toThrow('must be greater than 0');
    }
  });

  it('send a corner that one worker has built to the others', async () => {
    const pool = new WorkerPool(() => localWorker(), 2);
    const built = await pool.open(filesOf(corner()), SETTINGS);
    expect(built.solids.map(({ id }) => id)).toEqual(setup.solids.map(({ id }) => id));
    expect(built).not.toHaveProperty('bodies');
    expect(bytes(await pool.sweep())).toEqual(bytes(swept));
    const { row } = await pool.poseWorker.request({
      kind: 'pose',
      travelMm: setup.travelMm[1],
      steer: setup.steer[2],
    });
    const expected = new RowSweeper(setup).sweep(setup.travelMm[1], setup.steer.slice(2));
    expect(row).toEqual(expected);
    pool.end();
  });

  it('measure a corner that was built elsewhere', async () => {
    const worker = new PoolWorker(localWorker());
    const { bodies: _, ...built } = setup;
    await worker.request({ kind: 'setBuilt', built });
    const { row } = await worker.request({ kind: 'pose', travelMm: 20, steer: -1 });
    expect(row).toEqual(new RowSweeper(setup).sweep(20, Float64Array.of(-1)));
    worker.end();
  });

  it('receive the bytes of the assets, and share them with the other threads', async () => {
    const content = Uint8Array.from({ length: 5000 }, (_, k) => (k * 7) % 256);
    const assets = new Map([['bracket.stl', assetOf(content)]]);
    const text = JSON.stringify({ ...corner(), assets: ['bracket.stl'] });
    const { design } = await two.open({ text, assets }, SETTINGS);
    const parsed = parseDesign(text, assets);
    expect(parsed).toMatchObject({ design: { hash: design.hash } });
    const received = design.assets.get('bracket.stl')?.content;
    expect(new Uint8Array((await received?.arrayBuffer()) ?? new ArrayBuffer(0))).toEqual(content);
    expect((await two.sweep()).designHash).toBe(design.hash);
  });

  it('reject work on a corner when another is opened, and keep the corner when the new one is invalid', async () => {
    const pool = new WorkerPool(() => localWorker(), 2);
    await pool.open(filesOf(corner()), SETTINGS);
    const bad = pool.open(filesOf({ format: 'daylight.corner' }), SETTINGS);
    await expect(bad).rejects.toBeInstanceOf(DesignProblems);
    const result = await pool.sweep();
    const changed = { ...corner(), name: 'Changed' };
    changed.suspension.camberDeg = -2;
    const old = pool.sweep();
    const opening = pool.open(filesOf(changed), { ...SETTINGS, travelSteps: 3 });
    await expect(old).rejects.toThrow('another corner has been opened');
    expect((await opening).design.corner.name).toBe('Changed');
    const after = await pool.sweep();
    expect(after.travelMm).toHaveLength(3);
    expect(after.designHash).not.toBe(result.designHash);
    pool.end();
  });

  it('measure the newest of several simultaneously requested poses', async () => {
    const pool = new WorkerPool(() => localWorker(), 1);
    await pool.open(filesOf(corner()), SETTINGS);
    const reported: number[] = [];
    const failures: string[] = [];
    const probe = new PoseProbe(
      pool.poseWorker,
      (travelMm) => reported.push(travelMm),
      (why) => failures.push(why),
    );
    for (const travelMm of [1, 2, 3]) probe.request(travelMm, 0);
    await expect.poll(() => reported).toEqual([1, 3]);
    for (const travelMm of [4, 5, 6]) probe.request(travelMm, 0);
    await expect.poll(() => reported).toEqual([1, 3, 4, 6]);
    probe.end();
    probe.request(7, 0);
    expect(failures).toEqual([]);
    expect(setup.pairs.length).toBeGreaterThan(0);
  });

  it("reject a sweep with the worker's error when the worker dies or fails", async () => {
    let bands = 0;
    const dying = new WorkerPool(
      () => localWorker((reply) => (reply.kind === 'band' && ++bands === 3 ? 'die' : reply)),
      2,
    );
    await expect(sweepOn(dying, setup)).rejects.toThrow('a sweep worker died: out of memory');
    expect(dying.alive).toBe(false);
    const failing = new WorkerPool(
      () =>
        localWorker((reply) => (reply.kind === 'setCorner' ? { kind: 'failed', message: 'no luck' } : reply)),
      2,
    );
    await expect(sweepOn(failing, setup)).rejects.toThrow('no luck');
  });

  it("reject a sweep with the worker's error and end the pool when a corner cannot be sent", async () => {
    const pool = new WorkerPool(
      () =>
        localWorker((reply) =>
          reply.kind === 'sendCorner' ? { kind: 'failed', message: 'no room' } : reply,
        ),
      2,
    );
    await pool.open(filesOf(corner()), SETTINGS);
    await expect(pool.sweep()).rejects.toThrow('no room');
    expect(pool.alive).toBe(false);
  });

  it("reject an invalid corner with the worker's problems", async () => {
    const pool = new WorkerPool(() => localWorker(), 2);
    const bad = pool.open(filesOf({ format: 'daylight.corner' }), SETTINGS);
    await expect(bad).rejects.toBeInstanceOf(DesignProblems);
    pool.end();
  });

  it('reply to a request before opening with an error message', async () => {
    const replies: Reply[] = [];
    const answer = serve((message) => replies.push(message));
    answer({ kind: 'pose', travelMm: 0, steer: 0 });
    await expect
      .poll(() => replies)
      .toEqual([{ kind: 'failed', message: expect.stringMatching(/no corner to measure/) }]);
  });

  it('return nothing when a real thread is ended during a sweep', async () => {
    // The last test of these threads.
    two.setCorner(setup);
    await expect(two.sweep({ onProgress: () => two.end() })).rejects.toThrow(/ended/);
    expect(two.alive).toBe(false);
    await expect(two.sweep()).rejects.toThrow(/ended/);
  });
});
