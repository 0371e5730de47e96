import { describe, expect, it } from 'vitest';
import { viewSummary } from '../../../../src/app/shell/view/viewSummary.ts';
import type { OpenCorner } from '../../../../src/app/state/engine.ts';
import { CLEARANCE_KINDS } from '../../../../src/clearance/clearance.ts';
import { limitFindings } from '../../../../src/findings/limitFindings.ts';
import { figuresIn } from '../../../../src/report/figures.ts';
import { POSE_STATES } from '../../../../src/sweep/result.ts';
import { emptyRow } from '../../../../src/sweep/row.ts';
import { inventedLimit } from '../../../oracles/inventedLimit.ts';

const solids = ['Wheel', 'Tie rod', 'Damper'].map((label) => ({ id: label.toLowerCase(), label }));
const corner = {
  design: {
    corner: {
      side: 'left',
      suspension: { layout: 'doubleWishboneRack', steering: { rackInboard: 60, rackOutboard: 60 } },
    },
  },
  solids,
  limitsAt: () => limitFindings([inventedLimit()]),
  settings: { limitMm: 60 },
  pairs: [
    { a: 0, b: 1, targetMm: 6, allowanceMm: 0, zones: [] },
    { a: 0, b: 2, targetMm: 6, allowanceMm: 0, zones: [] },
    { a: 1, b: 2, targetMm: 6, allowanceMm: 0, zones: [] },
  ],
} as unknown as OpenCorner;

/** The three pairs at one pose, errors of 0.1 mm. */
function measured(clearancesMm: readonly number[], pose: (typeof POSE_STATES)[number] = 'solved') {
  const row = emptyRow(3, 1, ['chassis']);
  row.poseState[0] = POSE_STATES.indexOf(pose);
  clearancesMm.forEach((mm, pair) => {
    const kind = mm === Number.POSITIVE_INFINITY ? 'beyond' : mm < 0 ? 'overlapping' : 'separated';
    row.state[pair] = CLEARANCE_KINDS.indexOf(kind);
    row.clearanceMm[pair] = mm;
    row.errorMm[pair] = 0.1;
  });
  return { travelMm: -20, steer: 0, row };
}

describe('the description of the view', () => {
  it('states the pose, the counts by state, the pairs that touch, and the least margin of the others', () => {
    expect(viewSummary(corner, measured([-2, 9, 7]), new Set(['damper']), figuresIn('mm'))).toBe(
      'At droop −20 mm, straight ahead: 3 pairs, 1 touches, 2 clear. Wheel ↔ Tie rod, touches. ' +
        'Least margin: Tie rod ↔ Damper, clear, 7.00 ± 0.10 mm. Not drawn: Damper.',
    );
  });

  it('names the joints and dampers that bind at the pose', () => {
    const binding = inventedLimit({ allowed: 20 });
    const bottoms = inventedLimit({ kind: 'damperClosed', label: 'Damper', unit: 'mm', allowed: 30 });
    const bound = { ...corner, limitsAt: () => limitFindings([inventedLimit(), binding, bottoms]) };
    expect(viewSummary(bound, measured([9, 9, 7]), new Set(), figuresIn('mm'))).toContain(
      '3 clear. Upper joint binds, 22.00° of 20.00°. Damper bottoms out, 22.00 mm of 30.00 mm. Least margin:',
    );
  });

  it('counts joined parts with nothing else near as joined, not far', () => {
    const far = Number.POSITIVE_INFINITY;
    const zones = [{ shape: 'sphere', centre: [0, 0, 0], radiusMm: 10 }];
    const joined = {
      ...corner,
      pairs: corner.pairs.map((pair, i) => (i === 1 ? { ...pair, zones } : pair)),
    } as OpenCorner;
    expect(viewSummary(joined, measured([far, far, 9]), new Set(), figuresIn('mm'))).toContain(
      '3 pairs, 1 clear, 1 far, 1 joined; nothing else within 60 mm.',
    );
  });

  it('states no margin if all pairs are far, and no state if the pose is out of reach', () => {
    const far = Number.POSITIVE_INFINITY;
    expect(viewSummary(corner, measured([far, far, far]), new Set(), figuresIn('in'))).toBe(
      'At droop −0.79 in, straight ahead: 3 pairs, 3 far.',
    );
    expect(viewSummary(corner, measured([9, 9, 9], 'unreachable'), new Set(), figuresIn('mm'))).toBe(
      'At droop −20 mm, straight ahead: out of reach.',
    );
    expect(viewSummary(corner, undefined, new Set(), figuresIn('mm'))).toBe('Measuring this pose.');
    expect(viewSummary(corner, measured([9, 9, 9]), new Set(), figuresIn('mm'), 'a worker died')).toBe(
      'Clearances at this pose cannot be measured: a worker died',
    );
  });
});
