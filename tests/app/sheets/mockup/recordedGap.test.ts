import { describe, expect, it } from 'vitest';
import { gapProblem, withGap, withoutGap } from '../../../../src/app/sheets/mockup/recordedGap.ts';
import { parseDesign } from '../../../../src/design/parse.ts';
import { minimalCorner } from '../../../design/fixtures.ts';
import { readDesign } from '../../../design/readDesign.ts';

const source = minimalCorner();
const { corner } = readDesign(source);
const TYPED = { between: ['wheel', 'caliper'], gap: ' 1/8 in ±1/32 ', by: '', on: '2026-03-01' } as const;

describe('a gap recorded at the pose in hand', () => {
  it.each(['mm', 'in'] as const)('stays within travel and lock at their ends, in %s', (unit) => {
    const { travel, steering } = corner.suspension;
    for (const travelMm of [travel.bump, -travel.droop])
      for (const steer of [-1, 1]) {
        const changed = withGap(source, corner, { ...TYPED, travelMm, steer }, unit);
        const read = parseDesign(JSON.stringify(changed));
        expect(read.kind === 'bad' ? read.problems : []).toEqual([]);
        const [entry] = (read.kind === 'bad' ? undefined : read.design.corner.mockup) ?? [];
        const lock = steer * Number(steer > 0 ? steering.rackOutboard : steering.rackInboard);
        // Rounded to 0.01 mm or 0.0001 in.
        expect([entry.travel, entry.rack]).toEqual([expect.closeTo(travelMm, 1), expect.closeTo(lock, 1)]);
      }
  });

  it('is written as typed, after those before it, and can be removed', () => {
    const one = withGap(source, corner, { ...TYPED, travelMm: 0, steer: 0 }, 'in');
    const two = withGap(one, corner, { ...TYPED, by: 'E. Moss', travelMm: 10, steer: 0 }, 'mm');
    expect((two as { mockup: unknown[] }).mockup).toEqual([
      { between: ['wheel', 'caliper'], travel: '0 in', gap: '1/8 in ±1/32', on: '2026-03-01' },
      {
        between: ['wheel', 'caliper'],
        travel: '10 mm',
        gap: '1/8 in ±1/32',
        on: '2026-03-01',
        by: 'E. Moss',
      },
    ]);
    expect(withoutGap(two, 1)).toEqual(one);
    expect(withoutGap(one, 0)).toEqual(source);
  });

  it('is refused with the reason', () => {
    expect(gapProblem('', 'in')).toMatch(/^is missing/);
    expect(gapProblem('abc', 'in')).toBeDefined();
    expect(gapProblem('-1', 'in')).toBe('must be 0 or more');
    expect(gapProblem('1/8 ±1/32', 'in')).toBeUndefined();
  });
});
