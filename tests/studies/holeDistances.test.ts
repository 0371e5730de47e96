import { describe, expect, it } from 'vitest';
import { type HoleDistance, holeDistances } from '../../src/studies/holeDistances.ts';
import { benchCorner, boltsOf, entryOf } from '../solids/benchCorner.ts';

const named = (distances: readonly HoleDistance[], words: string): HoleDistance => {
  const found = distances.filter((one) => one.words === words);
  expect(found, words).toHaveLength(1);
  return found[0];
};

describe('distances of holes from edges and from each other', () => {
  it('match a calculation by hand for bolts on 110 mm in a pad of 145 mm with a bore of 80 mm', () => {
    const all = holeDistances(benchCorner());
    expect(named(all, "hub bolts to the rim of the upright's pad").distanceMm).toBe(17.5);
    expect(named(all, "hub bolts to the upright's bore").distanceMm).toBe(15);
    expect(named(all, "hub bolts to the rim of the housing's flange").distanceMm).toBe(15);
    expect(named(all, 'hub bolts from each other').distanceMm).toBeCloseTo(110 / Math.SQRT2, 9);
    expect(named(all, 'caliper bolts to the edge of the ears').distanceMm).toBe(14);
    expect(named(all, 'caliper bolts to the edge of the bracket').distanceMm).toBe(14);
    expect(named(all, 'caliper bolts from each other').distanceMm).toBe(130);
    expect(all).toHaveLength(7);
  });

  it('are compared with 1.2 and 2.2 hole diameters (EN 1993-1-8:2005 Table 3.3) and with two bolt diameters', () => {
    const all = holeDistances(benchCorner());
    const bore = named(all, "hub bolts to the upright's bore");
    // 12 mm bolts in medium holes of 13.5 mm (ISO 273) need 16.2 mm; 15 mm are available.
    expect(bore.holeMm).toBe(13.5);
    expect(bore.wanted.map(({ mm }) => mm)).toEqual([expect.closeTo(16.2, 9), 24]);
    expect(bore.wanted.map(({ short }) => short)).toEqual([true, true]);
    expect(bore.wanted[0].origin).toContain('EN 1993-1-8:2005 Table 3.3');
    expect(bore.wanted[1].origin).toContain('common practice, no source');
    const rim = named(all, "hub bolts to the rim of the upright's pad");
    expect(rim.wanted.map(({ short }) => short)).toEqual([false, true]);
    const [pitch] = named(all, 'hub bolts from each other').wanted;
    expect(pitch.mm).toBeCloseTo(29.7, 9);
    expect(pitch.short).toBe(false);
  });

  it('use the size of bolts that are parts, otherwise the diameter', () => {
    const corner = benchCorner();
    corner.parts.push(boltsOf({ joins: 'hubMount', size: '1/2-20' }));
    entryOf(corner, 'caliper').mount.boltDiameter = 11;
    const all = holeDistances(corner);
    expect(named(all, "hub bolts to the upright's bore")).toMatchObject({ holeMm: 14.3, holeKnown: true });
    expect(named(all, 'caliper bolts to the edge of the ears')).toMatchObject({
      holeMm: 11,
      holeKnown: false,
    });
  });

  it('use the corners and the shorter side of a rectangular pattern', () => {
    const corner = benchCorner();
    entryOf(corner, 'hub').mountRectangle = { width: 80, height: 60 };
    const all = holeDistances(corner);
    // Half of the diagonal is 50 mm.
    expect(named(all, "hub bolts to the upright's bore").distanceMm).toBe(10);
    expect(named(all, 'hub bolts from each other').distanceMm).toBeCloseTo(60, 9);
  });

  it('include spacers at the upright, and are negative for a hole past its edge', () => {
    const corner = benchCorner();
    corner.parts.push({
      id: 'shim',
      kind: 'spacer',
      allowance: 0,
      place: 'upright',
      thickness: 5,
      outerDiameter: 100,
      innerDiameter: 80,
    });
    const all = holeDistances(corner);
    expect(named(all, 'hub bolts to the outside of the spacer')).toMatchObject({
      partId: 'shim',
      distanceMm: -5,
    });
    expect(named(all, 'hub bolts to the inside of the spacer').distanceMm).toBe(15);
  });

  it('are empty without the parts', () => {
    const corner = benchCorner();
    corner.parts = corner.parts.filter(({ kind }) => kind !== 'hub' && kind !== 'caliper');
    expect(holeDistances(corner)).toEqual([]);
  });
});
