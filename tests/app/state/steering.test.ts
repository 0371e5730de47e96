import { describe, expect, it } from 'vitest';
import { steerScale } from '../../../src/app/state/steering.ts';
import { minimalCorner } from '../../design/fixtures.ts';
import { readDesign } from '../../design/readDesign.ts';

function scaleOf(side: 'left' | 'right') {
  const corner = minimalCorner();
  corner.side = side;
  corner.suspension.steering = { rackOutboard: 50, rackInboard: 40 };
  const design = readDesign(corner);
  return steerScale(design.corner);
}

describe('steer as shown', () => {
  it('is positive at outboard lock of a left corner, which turns left (ISO 8855)', () => {
    const scale = scaleOf('left');
    expect([scale.left, scale.right]).toEqual([50, -40]);
    expect([1, 0.5, 0, -1].map(scale.input)).toEqual([50, 25, 0, -40]);
  });

  it('is mirrored for a right corner: outboard lock turns right', () => {
    const scale = scaleOf('right');
    expect([scale.left, scale.right]).toEqual([40, -50]);
    expect([1, 0.5, 0, -1].map(scale.input)).toEqual([-50, -25, 0, 40]);
  });

  it.each(['left', 'right'] as const)('is recovered from the rack travel of a %s corner', (side) => {
    const scale = scaleOf(side);
    for (const steer of [-1, -0.3, 0, 0.8, 1]) expect(scale.steer(scale.input(steer))).toBeCloseTo(steer, 12);
    expect(Math.abs(scale.steer(1e3))).toBe(1);
  });
});
