import { describe, expect, it } from 'vitest';
import { CLEARANCE_KINDS, type ClearanceKind } from '../../src/clearance/clearance.ts';
import { findingsOf, stateOf, worstMargins } from '../../src/findings/findingsOf.ts';
import { DEFAULT_SETTINGS, POSE_STATES, type SweepResult } from '../../src/sweep/result.ts';
import { CARRIER_NUMBERS, emptyRow } from '../../src/sweep/row.ts';

type Cell = number | 'far' | 'unknown' | 'pending';

/** A result of two travels and two steers; each pair given as its four cells, errors of 0.1 mm, targets of 5 mm. */
function resultOf(cells: Cell[][], poses = ['solved', 'solved', 'solved', 'solved']): SweepResult {
  const row = emptyRow(cells.length, 4);
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
    carriers: new Float64Array(4 * CARRIER_NUMBERS),
  };
}

describe('state of a clearance', () => {
  it('leans to the safe side of its error', () => {
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
    const worst = findingsOf(result).pairs[0];
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

  it('sorts by what must be acted on, counts, and takes allowances off', () => {
    const findings = findingsOf(result);
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

  it('does not call a corner clear while something is unknown, unreachable or pending', () => {
    expect(findingsOf(resultOf([[9, 9, 9, 9]])).verdict).toBe('clear');
    expect(findingsOf(resultOf([[9, 9, 'unknown', 9]])).verdict).toBe('unknown');
    const unreachable = findingsOf(
      resultOf([[9, 9, 9, 'unknown']], ['solved', 'solved', 'solved', 'unreachable']),
    );
    expect(unreachable).toMatchObject({ verdict: 'unknown', unreachableSteps: [3], solvedSteps: 3 });
    expect(unreachable.pairs[0].unknownSteps).toBe(0);
    const pending = resultOf([[9, 9, 9, 'pending']], ['solved', 'solved', 'solved', 'pending']);
    expect(findingsOf(pending).verdict).toBe('incomplete');
  });

  it('keeps a contact that was found although other steps are unknown', () => {
    expect(findingsOf(resultOf([[9, -1, 'unknown', 9]])).pairs[0].state).toBe('touches');
  });

  it('maps the worst margin of each step', () => {
    expect([...worstMargins(result, [0, 1, 3])]).toEqual([-2, -3, -6.5, -1]);
    expect([...worstMargins(result, [2])]).toEqual(Array(4).fill(Number.POSITIVE_INFINITY));
    expect(worstMargins(result, [4])[1]).toBeNaN();
  });
});
