import { describe, expect, it } from 'vitest';
import { CLEARANCE_KINDS, type ClearanceKind } from '../../src/clearance/clearance.ts';
import { findingsOf, stateOf, worstMargins } from '../../src/findings/findingsOf.ts';
import { doubleWishboneRack } from '../../src/layouts/doubleWishboneRack/layout.ts';
import { DEFAULT_SETTINGS, POSE_STATES, type SweepResult } from '../../src/sweep/result.ts';
import { carrierNumbers, emptyRow } from '../../src/sweep/row.ts';
import { inventedLimit } from '../oracles/inventedLimit.ts';
import { atPose, proofOf } from '../oracles/inventedProof.ts';

const CARRIERS = Object.keys(doubleWishboneRack.carriers);

type Cell = number | 'far' | 'unknown' | 'pending';

/** A result of two travels and two steers. Each pair is given as its four cells; errors are 0.1 mm, targets 5 mm. */
function resultOf(cells: Cell[][], poses = ['solved', 'solved', 'solved', 'solved']): SweepResult {
  const row = emptyRow(cells.length, 4, CARRIERS);
  row.poseState.set(poses.map((name) => POSE_STATES.indexOf(name as (typeof POSE_STATES)[number])));
  cells.flat().forEach((cell, at) => {
    const kind: ClearanceKind | 'pending' =
      cell === 'far' ? 'beyond' : typeof cell === 'string' ? cell : cell > 0 ? 'separated' : 'overlapping';
    row.state[at] = CLEARANCE_KINDS.indexOf(kind);
    if (cell === 'far') row.clearanceMm[at] = Number.POSITIVE_INFINITY;
    if (typeof cell !== 'number') return;
    row.clearanceMm[at] = cell;
    row.errorMm[at] = 0.1;
    row.points.set([at, 0, 0, 0, at, 0], at * 6);
  });
  return {
    designHash: '',
    settings: DEFAULT_SETTINGS,
    travelMm: Float64Array.of(-50, 80),
    steer: Float64Array.of(-1, 1),
    pairs: cells.map((_, b) => ({
      a: 0,
      b: b + 1,
      moves: true,
      zones: [],
      targetMm: 5,
      targetOrigin: 'test',
      allowanceMm: b === 1 ? 1 : 0,
    })),
    unchecked: [],
    ...row,
    carriers: new Float64Array(4 * carrierNumbers(CARRIERS)),
  };
}

describe('state of a clearance', () => {
  it('is on the safe side of its error', () => {
    expect(stateOf(0.05, 0.1, -5)).toBe('touches');
    expect(stateOf(0.1, 0.1, -5)).toBe('touches');
    expect(stateOf(0.11, 0.1, -5)).toBe('tight');
    expect(stateOf(5.05, 0.1, 0.05)).toBe('tight');
    expect(stateOf(5.1, 0.1, 0.1)).toBe('clear');
    expect(stateOf(-3, 0.1, -8)).toBe('touches');
    expect(stateOf(Number.POSITIVE_INFINITY, Number.NaN, Number.POSITIVE_INFINITY)).toBe('far');
    expect(stateOf(Number.NaN, Number.NaN, Number.NaN)).toBe('unknown');
  });
});

describe('findings', () => {
  const result = resultOf([
    [9, 8, 7, 'far'],
    [9, 6.05, 8, 9],
    ['far', 'far', 'far', 'far'],
    [3, 2, -1.5, 4],
    [20, 'unknown', 20, 20],
  ]);

  it('finds the worst step, its pose, points and margin', () => {
    const worst = findingsOf(result, []).pairs[0];
    expect(worst).toMatchObject({ pair: 3, state: 'touches', unknownSteps: 0 });
    expect(worst.worst).toMatchObject({
      travelMm: 80,
      steer: -1,
      clearanceMm: -1.5,
      marginMm: -6.5,
    });
    expect(worst.worst?.pointA).toEqual([14, 0, 0]);
    expect(worst.worst?.pointB).toEqual([0, 14, 0]);
  });

  it('sorts by need for action, counts states and subtracts allowances', () => {
    const findings = findingsOf(result, []);
    expect(findings.pairs.map(({ pair, state }) => [pair, state])).toEqual([
      [3, 'touches'],
      [4, 'unknown'],
      [1, 'tight'],
      [0, 'clear'],
      [2, 'far'],
    ]);
    expect(findings.counts).toEqual({ touches: 1, tight: 1, clear: 1, far: 1, unknown: 1 });
    expect(findings.verdict).toBe('touches');
    expect(findings.pairs[2].worst?.marginMm).toBeCloseTo(0.05, 12);
  });

  it('does not report a corner as clear if a step is unknown, unreachable or pending', () => {
    expect(findingsOf(resultOf([[9, 9, 9, 9]]), []).verdict).toBe('clear');
    expect(findingsOf(resultOf([[9, 9, 'unknown', 9]]), []).verdict).toBe('unknown');
    const unreachable = findingsOf(
      resultOf([[9, 9, 9, 'unknown']], ['solved', 'solved', 'solved', 'unreachable']),
      [],
    );
    expect(unreachable).toMatchObject({ verdict: 'unknown', unreachableSteps: [3], solvedSteps: 3 });
    expect(unreachable.pairs[0].unknownSteps).toBe(0);
    const pending = resultOf([[9, 9, 9, 'pending']], ['solved', 'solved', 'solved', 'pending']);
    expect(findingsOf(pending, []).verdict).toBe('incomplete');
  });

  it('reports a contact even if other steps are unknown', () => {
    expect(findingsOf(resultOf([[9, -1, 'unknown', 9]]), []).pairs[0].state).toBe('touches');
  });

  it('ranks a depth without an upper bound by its proven part', () => {
    const open = resultOf([[9, -4, -7, 9]]);
    open.errorMm[1] = Number.POSITIVE_INFINITY;
    expect(findingsOf(open, []).pairs[0]).toMatchObject({ state: 'touches', worst: { clearanceMm: -7 } });
    open.errorMm[2] = Number.POSITIVE_INFINITY;
    expect(findingsOf(open, []).pairs[0]).toMatchObject({
      state: 'touches',
      worst: { clearanceMm: -7, errorMm: Number.POSITIVE_INFINITY },
    });
  });

  it('computes the smallest margin of each step', () => {
    expect([...worstMargins(result, [0, 1, 3])]).toEqual([-2, -3, -6.5, -1]);
    expect([...worstMargins(result, [2])]).toEqual(Array(4).fill(Number.POSITIVE_INFINITY));
    expect(worstMargins(result, [4])[1]).toBeNaN();
  });
});

describe('findings about joints and dampers', () => {
  const clear = resultOf([[9, 9, 9, 9]]);
  const binding = inventedLimit({ allowed: 20, usedAtSteps: Float64Array.of(0, 5, 12, 22) });
  const unknown = inventedLimit({ kind: 'damperOpen', allowed: undefined });

  it('count a binding limit like a touching pair, and an unknown limit like an unknown pair', () => {
    const findings = findingsOf(clear, [inventedLimit(), unknown, binding]);
    expect(findings).toMatchObject({
      verdict: 'touches',
      limitCounts: { binds: 1, unknown: 1, clear: 1 },
      counts: { touches: 0, clear: 1 },
    });
    expect(findings.limits.map(({ state }) => state)).toEqual(['binds', 'unknown', 'clear']);
    expect([...findings.bindingSteps]).toEqual([0, 0, 0, 1]);
    expect(findingsOf(clear, [unknown]).verdict).toBe('unknown');
    expect(findingsOf(resultOf([[9, 4, 9, 9]]), [unknown]).verdict).toBe('unknown');
    expect(findingsOf(clear, [inventedLimit()]).verdict).toBe('clear');
  });

  it('are incomplete while limits are not computed', () => {
    const findings = findingsOf(clear, undefined);
    expect(findings).toMatchObject({ verdict: 'incomplete', limits: [] });
    expect([...findings.bindingSteps]).toEqual([0, 0, 0, 0]);
  });
});

describe('findings with a proof between the steps', () => {
  const LOCKED_OUT = { travelMm: [70, 80], steer: [0.5, 1], whole: false, reason: 'too short' } as const;
  const one = (cells: Cell[], ...proof: Parameters<typeof proofOf>) =>
    findingsOf(resultOf([cells]), [], proofOf(...proof));

  it('report the worst case between steps if it is worse than at any step', () => {
    const { pairs, verdict } = one([9, 8, 7, 9], [{ lowerMm: 6.4, between: atPose(6.5) }]);
    expect(pairs[0]).toMatchObject({ state: 'clear', provenMm: 6.4 });
    expect(pairs[0].worst).toMatchObject({ travelMm: 12.5, steer: 0.375, clearanceMm: 6.5, marginMm: 1.5 });
    expect(verdict).toBe('clear');
  });

  it('report contact between steps', () => {
    const { pairs, verdict } = one([9, 8, 7, 9], [{ between: atPose(-0.4) }]);
    expect(pairs[0]).toMatchObject({ state: 'touches', provenMm: undefined, unknownSteps: 0 });
    expect(pairs[0].worst?.clearanceMm).toBe(-0.4);
    expect(verdict).toBe('touches');
  });

  it('derive the state from the proved lower bound, not from the smallest clearance found', () => {
    // The smallest clearance is at a step, with an error of 0.1 mm and a target of 5 mm.
    const stateWith = (foundMm: number, lowerMm: number) =>
      one([9, 9, foundMm, 9], [{ lowerMm, foundMm }]).pairs[0].state;
    expect(stateWith(0.19, 0.1)).toBe('touches');
    expect(stateWith(0.25, 0.11)).toBe('tight');
    expect(stateWith(5.15, 5.05)).toBe('tight');
    expect(stateWith(5.25, 5.15)).toBe('clear');
  });

  it('report a pair as unknown if its proof failed, even if every step is clear or far', () => {
    for (const cells of [
      [9, 9, 9, 9],
      ['far', 'far', 'far', 'far'],
    ] satisfies Cell[][]) {
      const { pairs, verdict, counts } = one(cells, [{ complete: false }]);
      expect(pairs[0]).toMatchObject({ state: 'unknown', provenMm: undefined, unknownSteps: 0 });
      expect([verdict, counts.unknown]).toEqual(['unknown', 1]);
    }
    expect(one([9, -1, 9, 9], [{ complete: false }]).pairs[0].state).toBe('touches');
  });

  it('keep a far pair far, with its proven bound', () => {
    const { pairs } = one(['far', 'far', 'far', 'far'], [{ lowerMm: 25 }]);
    expect(pairs[0]).toMatchObject({ state: 'far', worst: undefined, provenMm: 25 });
  });

  it('do not report a corner as clear if it locks out in a part of the rectangle', () => {
    const clear = [{ lowerMm: 8.9, foundMm: 9 }];
    expect(one([9, 9, 9, 9], clear)).toMatchObject({ verdict: 'clear', lockedOut: [] });
    const locked = one([9, 9, 9, 9], clear, [LOCKED_OUT]);
    expect(locked).toMatchObject({ verdict: 'unknown', lockedOut: [LOCKED_OUT], unreachableSteps: [] });
    expect(one([9, -1, 9, 9], [{}], [LOCKED_OUT]).verdict).toBe('touches');
    expect(findingsOf(resultOf([[9, 9, 9, 9]]), []).lockedOut).toBeUndefined();
  });
});
