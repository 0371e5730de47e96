import { describe, expect, it } from 'vitest';
import { clockingThreads } from '../../../src/cli/clockingThreads.ts';
import { parseDesign } from '../../../src/design/parse.ts';
import { ClockingCrew, type ClockingHandle } from '../../../src/studies/clocking/clockingCrew.ts';
import {
  type ClockingReply,
  type ClockingRequest,
  serveClocking,
} from '../../../src/studies/clocking/clockingDesk.ts';
import { firstLookAt, LOOK_DEG, profileSeen } from '../../../src/studies/clocking/firstLook.ts';
import { profileOf } from '../../../src/studies/clocking/profile.ts';
import { arcsOf, stateAt } from '../../../src/studies/clocking/spans.ts';
import { type ClockingStudy, type SeenSoFar, studyClocking } from '../../../src/studies/clocking/study.ts';
import { setUp } from '../../../src/sweep/setUp.ts';
import { minimalCorner } from '../../design/fixtures.ts';
import { merged } from '../../oracles/shapes.ts';
import { pairOf, peg, pegError } from './turned.ts';

const SETTINGS = { travelSteps: 3, steerSteps: 3, limitMm: 60, chordToleranceMm: 0.2 };

/** A worker inside this thread that talks through the real protocol; `meddle` may change its replies or end it. */
function localWorker(
  meddle: (reply: ClockingReply) => ClockingReply | 'die' = (reply) => reply,
): ClockingHandle {
  let onReply: (reply: ClockingReply) => void = () => {};
  let onDeath: (why: string) => void = () => {};
  let isDead = false;
  const answer = serveClocking((message) => {
    const reply = meddle(structuredClone(message));
    isDead ||= reply === 'die';
    if (reply === 'die') onDeath('out of memory');
    else onReply(reply);
  });
  return {
    post(request: ClockingRequest) {
      const told = structuredClone(request);
      setTimeout(() => !isDead && answer(told), 0);
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

/** Every number of a study to its last bit. */
const bits = ({ profiles, candidates, regions, unmet, asDrawn, unchanging }: ClockingStudy): string =>
  JSON.stringify(
    [profiles.map(({ index, profile }) => [index, profile]), candidates, regions, unmet, asDrawn, unchanging],
    (_, value: unknown) => {
      if (typeof value === 'number') return Object.is(value, -0) ? '-0' : String(value);
      return ArrayBuffer.isView(value) ? [...(value as Float64Array)] : value;
    },
  );

describe('a clocking study that workers share', async () => {
  const corner = minimalCorner();
  corner.parts.push({ id: 'hubBolts', kind: 'bolts', joins: 'hubMount', size: 'M12', headSide: 'outboard' });
  const parsed = parseDesign(JSON.stringify(corner));
  if (parsed.kind === 'bad') throw new Error(JSON.stringify(parsed.problems));
  const setup = await setUp(parsed.design, SETTINGS);
  const here = await studyClocking(setup);

  it('is the same to the last bit in process and on one thread and two, also when they hold the corner already', async () => {
    for (const threads of [1, 2]) {
      const crew = clockingThreads(threads);
      try {
        expect(bits(await studyClocking(setup, { crew }))).toBe(bits(here));
        const more = { wants: { leastMarginMm: 2 } };
        expect(bits(await studyClocking(setup, { ...more, crew }))).toBe(
          bits(await studyClocking(setup, more)),
        );
      } finally {
        crew.end();
      }
    }
  });

  it('shows a first look at every pair that turns before any is proved, and then the proofs as they come', async () => {
    const crew = new ClockingCrew(() => localWorker(), 2);
    const seen: SeenSoFar[] = [];
    const progress: number[] = [];
    const study = await studyClocking(setup, {
      crew,
      onSeen: (soFar) => seen.push(soFar),
      onProgress: (done) => progress.push(done),
    });
    crew.end();
    expect(bits(study)).toBe(bits(here));
    expect(progress).toEqual(study.pairs.map((_, k) => k + 1));
    // Whatever has not been looked at yet is told as open.
    const first = seen.findIndex(({ done }, k) => done === 0 && (seen[k + 1]?.done ?? 1) > 0);
    expect(first).toBeGreaterThanOrEqual(0);
    for (const part of seen.slice(0, first))
      for (const axis of ['caliper', 'hub', 'between'] as const)
        for (let deg = -180; deg < 180; deg += LOOK_DEG)
          expect([stateAt(seen[first].axes[axis].spans, deg), 'unsettled']).toContain(
            stateAt(part.axes[axis].spans, deg),
          );
    for (const { done, total } of seen) {
      expect(done).toBeLessThan(total);
      expect(total).toBe(study.pairs.length);
    }
    // Where it looked and the study is sure, the first look saw the same.
    let agreed = 0;
    for (const axis of ['caliper', 'hub', 'between'] as const) {
      for (let deg = -180; deg < 180; deg += LOOK_DEG) {
        const state = stateAt(study.axes[axis].spans, deg);
        if (state === 'unsettled' || study.axes[axis].isFree) continue;
        expect(`${axis} ${deg} ${stateAt(seen[first].axes[axis].spans, deg)}`).toBe(
          `${axis} ${deg} ${state}`,
        );
        agreed += 1;
      }
    }
    expect(agreed).toBeGreaterThan(100);
  });

  it('is given up when cancelled, before and in the middle, and the next one is whole', async () => {
    const crew = new ClockingCrew(() => localWorker(), 2);
    const off = studyClocking(setup, { crew, signal: AbortSignal.abort(new Error('not now')) });
    await expect(off).rejects.toThrow('not now');
    const cancel = new AbortController();
    let last = 0;
    const going = studyClocking(setup, {
      crew,
      signal: cancel.signal,
      onProgress(done) {
        last = done;
        cancel.abort(new Error('enough'));
      },
    });
    await expect(going).rejects.toThrow('enough');
    expect(last).toBe(1);
    expect(crew.alive).toBe(true);
    expect(bits(await studyClocking(setup, { crew }))).toBe(bits(here));
    expect(last).toBe(1);
    crew.end();
  });

  it('ends in the words of a worker that dies or fails, and tells nothing more', async () => {
    let proved = 0;
    const dying = new ClockingCrew(
      () => localWorker((reply) => (reply.kind === 'profile' && ++proved === 5 ? 'die' : reply)),
      2,
    );
    let last = 0;
    const study = studyClocking(setup, { crew: dying, onProgress: (done) => (last = done) });
    await expect(study).rejects.toThrow('a worker of the clocking study died: out of memory');
    expect(dying.alive).toBe(false);
    expect(last).toBeLessThan(here.pairs.length);
    await expect(studyClocking(setup, { crew: dying })).rejects.toThrow('out of memory');
    const failing = new ClockingCrew(
      () => localWorker((reply) => (reply.kind === 'look' ? { kind: 'failed', message: 'no luck' } : reply)),
      1,
    );
    await expect(studyClocking(setup, { crew: failing })).rejects.toThrow('no luck');
    failing.end();
  });

  it('a worker that is asked before it holds a corner says so', () => {
    const replies: ClockingReply[] = [];
    serveClocking((reply) => replies.push(reply))({ kind: 'look', pair: 0 });
    expect(replies).toEqual([{ kind: 'failed', message: expect.stringMatching(/before it held a corner/) }]);
  });
});

describe('a window that a first look passes over', () => {
  it('is found by the study that takes its place', () => {
    const [d, radiusMm, centreDeg] = [12, 80, 15];
    const apartDeg = (2 * Math.asin(d / (2 * radiusMm)) * 180) / Math.PI + 1;
    const posts = merged(peg(d, radiusMm, centreDeg - apartDeg), peg(d, radiusMm, centreDeg + apartDeg));
    const pair = pairOf(peg(d, radiusMm, 0), posts, { chordErrorMm: pegError(d) });
    const inside = (deg: number) => Math.abs(deg - centreDeg) < apartDeg;
    const seen = profileSeen(pair, firstLookAt(pair));
    expect(arcsOf(seen.spans, 'clears').some(({ fromDeg, toDeg }) => inside((fromDeg + toDeg) / 2))).toBe(
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
