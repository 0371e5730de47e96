import { describe, expect, it } from 'vitest';
import { builtProgram } from '../../../src/cli/build.js';
import { clockingThreads } from '../../../src/cli/clockingThreads.ts';
import { type ClockingHandle, ClockingPool } from '../../../src/studies/clocking/clockingPool.ts';
import {
  type ClockingReply,
  type ClockingRequest,
  serveClocking,
} from '../../../src/studies/clocking/clockingProtocol.ts';
import {
  ESTIMATE_STEP_DEG,
  estimatedProfile,
  firstEstimateOf,
} from '../../../src/studies/clocking/firstEstimate.ts';
import { profileOf } from '../../../src/studies/clocking/profile.ts';
import { arcsOf, stateAt } from '../../../src/studies/clocking/spans.ts';
import { type ClockingStudy, type StudyPreview, studyClocking } from '../../../src/studies/clocking/study.ts';
import { setUp } from '../../../src/sweep/setUp.ts';
import { entryOf, minimalCorner, SMALL_CALIPER } from '../../design/fixtures.ts';
import { readDesign } from '../../design/readDesign.ts';
import { merged } from '../../oracles/shapes.ts';
import { pairOf, peg, pegError } from './turned.ts';

const SETTINGS = { travelSteps: 3, steerSteps: 3, limitMm: 60, chordToleranceMm: 2 };

/** A worker in this thread that uses the real protocol; `intercept` may change its replies or end it. */
function localWorker(
  intercept: (reply: ClockingReply) => ClockingReply | 'die' = (reply) => reply,
): ClockingHandle {
  let onReply: (reply: ClockingReply) => void = () => {};
  let onDeath: (why: string) => void = () => {};
  let isDead = false;
  const answer = serveClocking((message) => {
    const reply = intercept(structuredClone(message));
    isDead ||= reply === 'die';
    if (reply === 'die') onDeath('out of memory');
    else onReply(reply);
  });
  return {
    post(request: ClockingRequest) {
      const copy = structuredClone(request);
      setTimeout(() => !isDead && answer(copy), 0);
    },
    listen(reply, death) {
      onReply = reply;
      onDeath = death;
    },
    terminate() {
      isDead = true;
    },
  };
}

/** Every number of a study, exactly. */
const bits = ({ profiles, candidates, regions, unmet, asDrawn, unchanging }: ClockingStudy): string =>
  JSON.stringify(
    [profiles.map(({ index, profile }) => [index, profile]), candidates, regions, unmet, asDrawn, unchanging],
    (_, value: unknown) => {
      if (typeof value === 'number') return Object.is(value, -0) ? '-0' : String(value);
      return ArrayBuffer.isView(value) ? [...(value as Float64Array)] : value;
    },
  );

describe('a clocking study on workers', async () => {
  const corner = minimalCorner();
  // Fewer parts make the study shorter.
  corner.parts = corner.parts.filter(({ kind }) =>
    ['wheel', 'hub', 'rotor', 'caliper', 'upright'].includes(kind),
  );
  Object.assign(entryOf(corner, 'caliper'), SMALL_CALIPER);
  corner.parts.push({ id: 'hubBolts', kind: 'bolts', joins: 'hubMount', size: 'M12', headSide: 'outboard' });
  const design = readDesign(corner);
  const setup = await setUp(design, SETTINGS);
  const here = await studyClocking(setup);

  it('is identical in process, on one worker and on two threads, also with a corner already sent', async () => {
    const more = { wants: { leastMarginMm: 1 } };
    const moreHere = await studyClocking(setup, more);
    const threads = clockingThreads(2, new URL('clockingThread.js', await builtProgram()));
    for (const pool of [new ClockingPool(() => localWorker(), 1), threads]) {
      try {
        expect(bits(await studyClocking(setup, { pool }))).toBe(bits(here));
        expect(bits(await studyClocking(setup, { ...more, pool }))).toBe(bits(moreHere));
      } finally {
        pool.end();
      }
    }
  });

  it('previews estimates of every turning pair before any proof, and then each proof', async () => {
    const pool = new ClockingPool(() => localWorker(), 2);
    const previews: StudyPreview[] = [];
    const progress: number[] = [];
    const study = await studyClocking(setup, {
      pool,
      onPreview: (soFar) => previews.push(soFar),
      onProgress: (done) => progress.push(done),
    });
    pool.end();
    expect(bits(study)).toBe(bits(here));
    expect(progress).toEqual(study.pairs.map((_, k) => k + 1));
    // A pair without an estimate counts as unsettled.
    const first = previews.findIndex(({ done }, k) => done === 0 && (previews[k + 1]?.done ?? 1) > 0);
    expect(first).toBeGreaterThanOrEqual(0);
    for (const part of previews.slice(0, first))
      for (const axis of ['caliper', 'hub', 'between'] as const)
        for (let deg = -180; deg < 180; deg += ESTIMATE_STEP_DEG)
          expect([stateAt(previews[first].axes[axis].spans, deg), 'unsettled']).toContain(
            stateAt(part.axes[axis].spans, deg),
          );
    for (const { done, total } of previews) {
      expect(done).toBeLessThan(total);
      expect(total).toBe(study.pairs.length);
    }
    // At each estimated angle, a settled study has the same state as the estimate.
    let agreed = 0;
    for (const axis of ['caliper', 'hub', 'between'] as const) {
      for (let deg = -180; deg < 180; deg += ESTIMATE_STEP_DEG) {
        const state = stateAt(study.axes[axis].spans, deg);
        if (state === 'unsettled' || study.axes[axis].isFree) continue;
        expect(`${axis} ${deg} ${stateAt(previews[first].axes[axis].spans, deg)}`).toBe(
          `${axis} ${deg} ${state}`,
        );
        agreed += 1;
      }
    }
    expect(agreed).toBeGreaterThan(100);
  });

  it('rejects when cancelled before or during the study, and the next study is complete', async () => {
    const pool = new ClockingPool(() => localWorker(), 2);
    const off = studyClocking(setup, { pool, signal: AbortSignal.abort(new Error('not now')) });
    await expect(off).rejects.toThrow('not now');
    const cancel = new AbortController();
    let last = 0;
    const going = studyClocking(setup, {
      pool,
      signal: cancel.signal,
      onProgress(done) {
        last = done;
        cancel.abort(new Error('enough'));
      },
    });
    await expect(going).rejects.toThrow('enough');
    expect(last).toBe(1);
    expect(pool.alive).toBe(true);
    expect(bits(await studyClocking(setup, { pool }))).toBe(bits(here));
    expect(last).toBe(1);
    pool.end();
  });

  it("rejects with the worker's error when a worker dies or fails, and reports nothing more", async () => {
    let proved = 0;
    const dying = new ClockingPool(
      () => localWorker((reply) => (reply.kind === 'profile' && ++proved === 5 ? 'die' : reply)),
      2,
    );
    let last = 0;
    const study = studyClocking(setup, { pool: dying, onProgress: (done) => (last = done) });
    await expect(study).rejects.toThrow('a worker of the clocking study died: out of memory');
    expect(dying.alive).toBe(false);
    expect(last).toBeLessThan(here.pairs.length);
    await expect(studyClocking(setup, { pool: dying })).rejects.toThrow('out of memory');
    const failing = new ClockingPool(
      () =>
        localWorker((reply) => (reply.kind === 'estimate' ? { kind: 'failed', message: 'no luck' } : reply)),
      1,
    );
    await expect(studyClocking(setup, { pool: failing })).rejects.toThrow('no luck');
    failing.end();
  });

  it('rejects a request to a worker without a corner', () => {
    const replies: ClockingReply[] = [];
    serveClocking((reply) => replies.push(reply))({ kind: 'estimate', pair: 0 });
    expect(replies).toEqual([{ kind: 'failed', message: expect.stringMatching(/has no corner yet/) }]);
  });
});

describe('a window between the angles of a first estimate', () => {
  it('is found by the study', () => {
    const [d, radiusMm, centreDeg] = [12, 80, 15];
    const apartDeg = (2 * Math.asin(d / (2 * radiusMm)) * 180) / Math.PI + 1;
    const posts = merged(peg(d, radiusMm, centreDeg - apartDeg), peg(d, radiusMm, centreDeg + apartDeg));
    const pair = pairOf(peg(d, radiusMm, 0), posts, { chordErrorMm: pegError(d) });
    const inside = (deg: number) => Math.abs(deg - centreDeg) < apartDeg;
    const estimate = estimatedProfile(pair, firstEstimateOf(pair));
    expect(arcsOf(estimate.spans, 'clears').some(({ fromDeg, toDeg }) => inside((fromDeg + toDeg) / 2))).toBe(
      false,
    );
    const windows = arcsOf(profileOf(pair).spans, 'clears').filter(({ fromDeg, toDeg }) =>
      inside((fromDeg + toDeg) / 2),
    );
    expect(windows.length).toBe(1);
    expect(windows[0].toDeg - windows[0].fromDeg).toBeGreaterThan(1.8);
    expect(windows[0].toDeg - windows[0].fromDeg).toBeLessThan(2);
  });
});
