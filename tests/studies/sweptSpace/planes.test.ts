import { describe, expect, it } from 'vitest';
import { constant, scale } from '../../../src/math/taylorModel.ts';
import { planeCrossing } from '../../../src/studies/sweptSpace/planeCrossing.ts';
import { readPlane } from '../../../src/studies/sweptSpace/readPlane.ts';
import { SpunBody } from '../../../src/studies/sweptSpace/spunBody.ts';
import { aboutZ, ballProfile, cellsOf } from './sweptBodies.ts';

describe('planes of fenders and rails', () => {
  it('reads planes square to an axis, and by point and normal', () => {
    expect(readPlane('z=35', 'in')).toMatchObject({ point: [0, 0, 889], normal: [0, 0, 1] });
    expect(readPlane('-y=500 mm', 'in')).toMatchObject({ point: [0, 500, 0], normal: [-0, -1, -0] });
    const { point, normal } = readPlane('0,600,900:0,3,4', 'mm');
    expect(point).toEqual([0, 600, 900]);
    [0, 0.6, 0.8].forEach((value, i) => {
      expect(normal[i]).toBeCloseTo(value, 12);
    });
  });

  it.each(['w=3', 'z', '1,2:0,0,1', '0,0,0:0,0,0', 'z=abc'])('rejects %s, and says what to give', (text) => {
    expect(() => readPlane(text, 'mm')).toThrow(/Give x=LENGTH/);
  });

  // A ball of 5 on an arc of radius 100 from 0 to 60 degrees reaches furthest along (cos 20, sin 20) at 20 degrees.
  it.each([
    [20, 105],
    [-30, 100 * Math.cos(Math.PI / 6) + 5],
  ])('finds the deepest pose of an arc toward %d degrees', (deg, reach) => {
    const pieces = [{ outline: ballProfile(5, 256), growthMm: 0 }];
    const body = new SpunBody(pieces);
    const range = { travelMm: 30, travelHalfMm: 30, steer: 0, steerHalf: 0 };
    const cells = cellsOf(body, range, (x) => {
      const rows = aboutZ(scale(x, Math.PI / 180));
      return {
        rows,
        from: [0, 0, 0],
        to: [scale(rows[0][0], 100), scale(rows[1][0], 100), constant(0)],
      };
    });
    const angle = (deg * Math.PI) / 180;
    const normal = [Math.cos(angle), Math.sin(angle), 0] as const;
    const plane = { label: 'test', point: [90 * normal[0], 90 * normal[1], 0] as const, normal };
    const { depthMm, errorMm, travelMm } = planeCrossing(plane, pieces, cells, 0);
    // The polygon of the profile exceeds the ball by 0.0004 mm.
    expect(depthMm).toBeLessThanOrEqual(reach - 90 + 0.001);
    expect(depthMm + errorMm).toBeGreaterThanOrEqual(reach - 90);
    // The tolerance of the search: it ended before it ran out of cells.
    expect(errorMm).toBeCloseTo(0.25, 9);
    // At the found pose the ball is within that of its furthest: 100 (1 - cos a) <= 0.25 for a <= 4.1 degrees.
    expect(Math.abs(travelMm - Math.max(deg, 0))).toBeLessThan(4.1);
  });
});
