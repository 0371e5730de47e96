import { describe, expect, it } from 'vitest';
import { boltDimensions } from '../../../src/design/fasteners/boltDimensions.ts';
import { boltTool } from '../../../src/design/fasteners/boltTool.ts';
import { FASTENER_SIZES, wrenchOpeningMm } from '../../../src/design/fasteners/fastenerSizes.ts';
import type { Entry } from '../../../src/design/schema.ts';
import { boltsOf } from '../../solids/benchCorner.ts';

function toolOf(given: Partial<Entry<'bolts'>>, acrossMm: number) {
  const bolts = boltsOf({ joins: 'hubMount', headAcross: acrossMm, headHeight: 8, ...given });
  const { head } = boltDimensions(bolts);
  if (head === undefined) throw new Error('the bolts have heads');
  return boltTool(bolts, head);
}

describe('assumed tools', () => {
  it.each([
    // Across the hexagon, outside of a hand socket on a 1/2 in drive, mm: from memory.
    [13, 24],
    [17, 24],
    [19, 27],
    [21, 30],
    [24, 34],
    [30, 42],
  ])('a socket for %i mm is %i mm across or a little more', (acrossMm, outsideMm) => {
    const { diameterMm } = toolOf({ tool: 'socket' }, acrossMm);
    expect(diameterMm).toBeGreaterThanOrEqual(outsideMm);
    expect(diameterMm).toBeLessThan(outsideMm + 1.1);
  });

  it.each([
    // Across the hexagon, length of a hand socket on a 1/2 in drive, mm: from memory.
    [13, 40],
    [19, 40],
    [24, 43],
    [30, 50],
    [36, 56],
  ])(
    'a socket for %i mm is %i mm long or a little more, and longer over a long thread',
    (acrossMm, longMm) => {
      const tool = toolOf({ tool: 'socket' }, acrossMm);
      if (tool.kind !== 'socket') throw new Error('a socket was asked for');
      expect(tool.lengthMm).toBeGreaterThanOrEqual(longMm);
      expect(tool.lengthMm).toBeLessThan(longMm + 3);
      const bolts = boltsOf({ joins: 'wheel', size: 'M12', tool: 'socket' });
      const { nut } = boltDimensions(bolts);
      if (nut === undefined) throw new Error('studs take nuts');
      const lengths = [20, 60].map((threadMm) => boltTool(bolts, nut, threadMm)).map((one) => one.lengthMm);
      // 17 mm of it are the drive's, from memory.
      expect(lengths).toEqual([40, 77]);
    },
  );

  it.each([
    // US federal specification A-A-1346A, at most, in: outside of a box wrench's head.
    [7 / 16, 0.695],
    [1 / 2, 0.775],
    [9 / 16, 0.868],
    [5 / 8, 0.946],
    [11 / 16, 1.025],
    [3 / 4, 1.125],
  ])('a box wrench for %f in is %f in across its head or more', (across, outside) => {
    expect(toolOf({ tool: 'boxWrench' }, across * 25.4).diameterMm).toBeGreaterThanOrEqual(outside * 25.4);
  });

  it('fits over what it turns, for every size, and an open wrench is wider than a box wrench', () => {
    for (const { name } of FASTENER_SIZES) {
      const bolts = boltsOf({ joins: 'hubMount', size: name });
      const { head } = boltDimensions(bolts);
      if (head === undefined) throw new Error('the bolts have heads');
      const [socket, box, open] = (['socket', 'boxWrench', 'openWrench'] as const).map(
        (tool) => boltTool({ ...bolts, tool }, head).diameterMm,
      );
      expect(socket, name).toBeGreaterThan(head.roundMm);
      expect(box, name).toBeGreaterThan(wrenchOpeningMm(head.acrossMm).most / Math.cos(Math.PI / 6));
      expect(open, name).toBeGreaterThan(box);
    }
  });
});
