import { describe, expect, it } from 'vitest';
import { doneSpans, hasPending } from '../../../src/app/map/spans.ts';
import { type StepPicture, stepPicture } from '../../../src/app/map/stepPicture.ts';
import { CLEARANCE_KINDS } from '../../../src/clearance/clearance.ts';
import { POSE_STATES, type SweepResult } from '../../../src/sweep/result.ts';

const kind = (name: (typeof CLEARANCE_KINDS)[number]) => CLEARANCE_KINDS.indexOf(name);
const pose = (name: (typeof POSE_STATES)[number]) => POSE_STATES.indexOf(name);

/** Two pairs with a target of 5 mm and an allowance of 1 mm at the six steps below; errors of 0.1 mm. */
const clearances = [
  [0.05, 8, Number.POSITIVE_INFINITY, 8, Number.NaN, Number.NaN],
  [20, 6.05, Number.POSITIVE_INFINITY, Number.NaN, Number.NaN, Number.NaN],
];
const poses = ['solved', 'solved', 'solved', 'solved', 'pending', 'unreachable'] as const;
const result = {
  poseState: Uint8Array.from(poses.map(pose)),
  pairs: clearances.map(() => ({ targetMm: 5, allowanceMm: 1 })),
  state: Uint8Array.from(clearances.flat().map((mm) => kind(Number.isNaN(mm) ? 'unknown' : 'separated'))),
  clearanceMm: Float64Array.from(clearances.flat()),
  errorMm: new Float64Array(12).fill(0.1),
} as unknown as SweepResult;

describe('the picture of a sweep', () => {
  it('shows the most severe state of each step and the least margin', () => {
    const { states, marginMm, leastMm } = stepPicture(result, [0, 1]);
    // Contact within the error touches; a margin within the error is tight; one pair unknown leaves the step unknown.
    expect(states).toEqual(['touches', 'tight', 'far', 'unknown', 'pending', 'unreachable']);
    expect(marginMm[0]).toBeCloseTo(0.05 - 6, 12);
    expect(marginMm[1]).toBeCloseTo(0.05, 12);
    expect(marginMm[2]).toBe(Number.POSITIVE_INFINITY);
    expect([...marginMm.subarray(3)].every(Number.isNaN)).toBe(true);
    // Contact begins where the clearance equals its error.
    expect(leastMm[0]).toBeCloseTo(0.05 - 0.1, 12);
    expect(leastMm[1]).toBeCloseTo(6.05 - 0.1, 12);
    expect(leastMm[2]).toBe(Number.POSITIVE_INFINITY);
    expect([...leastMm.subarray(3)].every(Number.isNaN)).toBe(true);
  });

  it('shows where a joint or damper binds, unless parts touch or the pose is not solved', () => {
    const { states } = stepPicture(result, [0, 1], Uint8Array.of(1, 1, 0, 1, 1, 1));
    expect(states).toEqual(['touches', 'binds', 'far', 'binds', 'pending', 'unreachable']);
  });

  it('marks the steps at which a depth has no upper bound', () => {
    const open = {
      ...result,
      clearanceMm: result.clearanceMm.map((mm, at) => (at === 1 ? -3 : mm)),
      errorMm: result.errorMm.map((mm, at) => (at === 1 ? Number.POSITIVE_INFINITY : mm)),
    };
    const picture = stepPicture(open, [0, 1]);
    expect(picture.states[1]).toBe('touches');
    expect([...picture.isUnbounded]).toEqual([0, 1, 0, 0, 0, 0]);
    expect(picture.leastMm[1]).toBe(-3);
    expect(picture.marginMm[1]).toBe(-9);
  });

  it('shows only the given pair', () => {
    expect(stepPicture(result, [1]).states.slice(0, 2)).toEqual(['clear', 'tight']);
    expect(stepPicture(result, [0]).states.slice(0, 2)).toEqual(['touches', 'clear']);
  });
});

describe('rows that are not swept yet', () => {
  /** Rows of two steps, `x` finished and `.` pending. */
  const rows = (text: string): StepPicture => ({
    states: [...text].flatMap((row) => (row === 'x' ? ['far', 'unreachable'] : ['pending', 'pending'])),
    marginMm: new Float64Array(2 * text.length),
    leastMm: new Float64Array(2 * text.length),
    isUnbounded: new Uint8Array(2 * text.length),
  });

  it.each([
    ['.....', [], []],
    ['x....', [], []],
    ['x...x', ['0-4'], ['0-4']],
    ['x.x.x', ['0-2', '2-4'], ['0-2', '2-4']],
    ['xxx.x', ['0-1', '1-2', '2-4'], ['2-4']],
    ['xxxxx', ['0-1', '1-2', '2-3', '3-4'], []],
  ])('are in spans between finished rows: %s', (text, spans, open) => {
    const found = doneSpans(rows(text), 2);
    const named = (list: typeof found) => list.map(({ from, to }) => `${from}-${to}`);
    expect(named(found)).toEqual(spans);
    expect(named(found.filter(hasPending))).toEqual(open);
  });
});
