import { describe, expect, it } from 'vitest';
import { steerScale } from '../../src/app/steering.ts';
import { parseDesign } from '../../src/design/parse.ts';
import { minimalCorner } from '../design/fixtures.ts';

function scaleOf(side: 'left' | 'right') {
  const corner = minimalCorner();
  corner.side = side;
  corner.suspension.steering = { rackOutboard: 50, rackInboard: 40 };
  const parsed = parseDesign(JSON.stringify(corner));
  if (parsed.kind === 'bad') throw new Error(parsed.problems.map(({ message }) => message).join());
  return steerScale(parsed.design.corner);
}

describe('steer as shown', () => {
  it('of a left corner: outboard lock turns to the left, positive (ISO 8855)', () => {
    const scale = scaleOf('left');
    expect([scale.leftMm, scale.rightMm]).toEqual([50, -40]);
    expect([1, 0.5, 0, -1].map(scale.rackMm)).toEqual([50, 25, 0, -40]);
  });

  it('of a right corner is its mirror image: outboard lock turns to the right', () => {
    const scale = scaleOf('right');
    expect([scale.leftMm, scale.rightMm]).toEqual([40, -50]);
    expect([1, 0.5, 0, -1].map(scale.rackMm)).toEqual([-50, -25, 0, 40]);
  });

  it.each(['left', 'right'] as const)('comes back from the rack travel of a %s corner', (side) => {
    const scale = scaleOf(side);
    for (const steer of [-1, -0.3, 0, 0.8, 1])
      expect(scale.steer(scale.rackMm(steer))).toBeCloseTo(steer, 12);
    expect(Math.abs(scale.steer(1e3))).toBe(1);
  });
});
