import { describe, expect, it } from 'vitest';
import { pointAt, type Sight, type SightedBody } from '../../../../src/app/workers/tape/pointAt.ts';
import { readBody } from '../../../../src/app/workers/tape/readBody.ts';
import { translation } from '../../../../src/math/rigid.ts';
import { box, rod } from '../../../oracles/shapes.ts';

/** A block of 40 x 60 x 20 about the origin, and a bar of radius 10 about z, its ends at z = 100 and 150. */
const block: SightedBody = {
  body: readBody(box(40, 60, 20), 0.05),
  carrierFromVehicle: translation([0, 0, 0]),
  isGlass: false,
};
const bar: SightedBody = {
  body: readBody(rod(10, 0, 50, 48), 0.05),
  carrierFromVehicle: translation([0, 0, -100]),
  isGlass: false,
};

/** Looking down. */
const sight = (x: number, y: number, more: Partial<Sight> = {}): Sight => ({
  origin: [x, y, 1000],
  direction: [0, 0, -1],
  reachMm: Number.POSITIVE_INFINITY,
  snapMm: 2,
  onlyPlaces: false,
  ...more,
});

describe('what is pointed at', () => {
  it('is the face that is met, away from its edges', () => {
    const found = pointAt(sight(10, 20), [block]);
    expect(found).toMatchObject({ index: 0, feature: { kind: 'flat', areaMm2: 2400 } });
  });

  it('is an edge near by, the upper one of two in line', () => {
    for (const x of [18.5, 20, 21.5]) {
      const found = pointAt(sight(x, 5), [block]);
      expect(found).toMatchObject({ feature: { kind: 'edge' } });
      if (found === undefined || !('feature' in found) || found.feature.kind !== 'edge') throw new Error();
      expect([found.feature.from[0], found.feature.to[0]]).toEqual([20, 20]);
      expect([found.feature.from[2], found.feature.to[2]]).toEqual([10, 10]);
    }
    expect(pointAt(sight(22.5, 5), [block])).toBeUndefined();
  });

  it('is the centre of a round edge, at the edge and at the centre', () => {
    for (const x of [0.5, 9.5]) {
      const found = pointAt(sight(x, 0), [block, bar]);
      expect(found).toMatchObject({ index: 1, feature: { kind: 'ring' } });
      if (found === undefined || !('feature' in found) || found.feature.kind !== 'ring') throw new Error();
      // The upper end, in the frame of the bar.
      expect(found.feature.centre[2]).toBeCloseTo(50, 6);
    }
  });

  it('is nothing that is hidden', () => {
    const found = pointAt(sight(5, 0, { snapMm: 1 }), [block, bar]);
    expect(found).toMatchObject({ index: 1, feature: { kind: 'flat' } });
  });

  it('is nothing that is cut away, nor what metal hides that is cut through', () => {
    // All above z = 5 is cut away, inside the block.
    const fromPlane = (x: number) => pointAt(sight(x, 5, { origin: [x, 5, 5], snapMm: 1 }), [block, bar]);
    expect(fromPlane(5)).toBeUndefined();
    expect(fromPlane(25)).toBeUndefined();
    // All below z = 120, within the bar.
    const toPlane = sight(5, 0, { reachMm: 1000 - 120, snapMm: 1 });
    expect(pointAt(toPlane, [block, bar])).toMatchObject({ index: 1 });
    expect(pointAt(toPlane, [block])).toBeUndefined();
  });

  it('passes glass by where something stands behind it', () => {
    expect(pointAt(sight(5, 0, { snapMm: 1 }), [block, { ...bar, isGlass: true }])).toMatchObject({
      index: 0,
    });
    expect(pointAt(sight(5, 0, { snapMm: 1 }), [{ ...bar, isGlass: true }])).toMatchObject({ index: 0 });
  });

  it('is the place of the surface where only those are wanted', () => {
    expect(pointAt(sight(20 - 1e-3, 5, { onlyPlaces: true }), [block])).toEqual({
      index: 0,
      at: [expect.closeTo(20, 2), expect.closeTo(5, 4), expect.closeTo(10, 4)],
    });
  });
});
