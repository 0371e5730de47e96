import { describe, expect, it } from 'vitest';
import { zoneLegend } from '../../../../src/app/tools/zones/zoneLegend.ts';
import { zoneOutlines } from '../../../../src/app/tools/zones/zoneOutline.ts';
import { addScaled, distance, dot, length, normalize, sub, type Vec3 } from '../../../../src/math/vec.ts';
import { figuresIn } from '../../../../src/report/figures.ts';
import type { Zone } from '../../../../src/solids/solid.ts';

const BALL: Zone = { shape: 'sphere', centre: [100, -200, 300], radiusMm: 16 };
const BOLT: Zone = {
  what: 'bolt in its hole',
  shape: 'slab',
  centre: [-20, 640, 310],
  axis: normalize([1, 2, 3]),
  halfThicknessMm: 6,
  radiusMm: 8,
};
/** Float32 resolution at a few hundred millimetres. */
const ROUNDING_MM = 1e-4;

const pointsOf = (zones: readonly Zone[]): Vec3[] => {
  const numbers = [...zoneOutlines(zones)];
  return Array.from(
    { length: numbers.length / 3 },
    (_, i) => numbers.slice(3 * i, 3 * i + 3) as unknown as Vec3,
  );
};

describe('the outline of a zone', () => {
  it('lies on the sphere and reaches its radius along each axis', () => {
    const points = pointsOf([BALL]);
    for (const point of points)
      expect(Math.abs(distance(point, BALL.centre) - BALL.radiusMm)).toBeLessThan(ROUNDING_MM);
    for (const axis of [0, 1, 2])
      for (const way of [-1, 1]) {
        const reach = Math.max(...points.map((point) => way * (point[axis] - BALL.centre[axis])));
        expect(reach).toBeCloseTo(BALL.radiusMm, 3);
      }
  });

  it('follows both rims of a disc and connects them', () => {
    const points = pointsOf([BOLT]);
    const alongs = points.map((point) => dot(sub(point, BOLT.centre), BOLT.axis));
    points.forEach((point, i) => {
      expect(Math.abs(Math.abs(alongs[i]) - BOLT.halfThicknessMm)).toBeLessThan(ROUNDING_MM);
      const across = length(addScaled(sub(point, BOLT.centre), BOLT.axis, -alongs[i]));
      expect(Math.abs(across - BOLT.radiusMm)).toBeLessThan(ROUNDING_MM);
    });
    // Segments from rim to rim are as long as the disc is thick.
    const struts = points.filter((_, i) => i % 2 === 0 && alongs[i] * alongs[i + 1] < 0);
    expect(struts).toHaveLength(8);
  });

  it('has the segments of every zone', () => {
    expect(zoneOutlines([BALL, BOLT])).toHaveLength(
      zoneOutlines([BALL]).length + zoneOutlines([BOLT]).length,
    );
    expect(zoneOutlines([])).toHaveLength(0);
  });
});

it('the legend lists each kind of zone once, with its size in the shown unit', () => {
  expect(zoneLegend([BOLT, BALL, { ...BOLT, centre: [0, 0, 0] }], figuresIn('mm'))).toEqual([
    { text: 'bolt in its hole: disc, 16.00 mm diameter, 12.00 mm thick', count: 2 },
    { text: 'intended contact: sphere, 32.00 mm diameter', count: 1 },
  ]);
  expect(zoneLegend([BOLT], figuresIn('in'))[0].text).toBe(
    'bolt in its hole: disc, 0.630 in diameter, 0.473 in thick',
  );
});
