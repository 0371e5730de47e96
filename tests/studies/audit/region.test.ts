import { describe, expect, it } from 'vitest';
import { normalize, type Vec3 } from '../../../src/math/vec.ts';
import { loadModeller } from '../../../src/solids/modeller.ts';
import { REGION_TOLERANCE_MM, type Region, regionSolid } from '../../../src/studies/audit/region.ts';

const AXIS: Vec3 = normalize([1, -2, 0.5]);
const CENTRE: Vec3 = [12, -30, 7];

async function volumeOf(region: Region, errorMm: number): Promise<number | undefined> {
  const modeller = await loadModeller();
  try {
    return regionSolid(modeller, region, errorMm)?.volume();
  } finally {
    modeller.release();
  }
}

const round = (halfLengthMm: number, radiusMm: number, innerRadiusMm?: number): Region => ({
  shape: 'round',
  centre: CENTRE,
  axis: AXIS,
  halfLengthMm,
  radiusMm,
  innerRadiusMm,
});
const disc = (r: number, l: number) => Math.PI * r ** 2 * l;

describe('the solid of a region of intended contact', () => {
  // Name, region, enlargement, and the volume of the enlarged region in closed form.
  const cases: [string, Region, number, (e: number) => number][] = [
    ['a bolt', round(10, 8), 0.3, (e) => disc(8 + e, 20 + 2 * e)],
    ['a bolt without any error', round(10, 8), 0, (e) => disc(8 + e, 20 + 2 * e)],
    ['a clamped plane', round(0, 70), 0.25, (e) => disc(70 + e, 2 * e)],
    ['a tube', round(4, 60, 50), 0.2, (e) => disc(60 + e, 8 + 2 * e) - disc(50 - e, 8 + 2 * e)],
    ['the wall of a bore', round(4, 50, 50), 0.2, (e) => disc(50 + e, 8 + 2 * e) - disc(50 - e, 8 + 2 * e)],
    [
      'a ball',
      { shape: 'ball', centre: CENTRE, radiusMm: 16 },
      0.3,
      (e) => (4 / 3) * Math.PI * (16 + e) ** 3,
    ],
  ];

  it.each(cases)(
    'is %s, no smaller than it by closed form and hardly larger',
    async (_, region, errorMm, exact) => {
      const volume = await volumeOf(region, errorMm);
      const lengthsMayGrow = Math.max(REGION_TOLERANCE_MM, 1e-4);
      expect(volume).toBeGreaterThanOrEqual(exact(errorMm) * (1 - 1e-6));
      expect(volume).toBeLessThanOrEqual(exact(errorMm + lengthsMayGrow) * (1 + 1e-6));
    },
  );

  it('is the convex hull of two equal discs, with the strip between them', async () => {
    const along = (x: number) => ({
      centre: [x, 0, 0] as Vec3,
      axis: [0, 1, 0] as Vec3,
      halfLengthMm: 0,
      radiusMm: 14,
    });
    const e = 0.2;
    const exact = (by: number) => 2 * by * (Math.PI * (14 + by) ** 2 + 2 * (14 + by) * 100);
    const volume = await volumeOf({ shape: 'hull', rounds: [along(-50), along(50)] }, e);
    expect(volume).toBeGreaterThan(exact(e) * (1 - 1e-6));
    expect(volume).toBeLessThan(exact(e + REGION_TOLERANCE_MM));
  });

  it('is undefined for a region of everything', async () => {
    expect(await volumeOf({ shape: 'all' }, 0.1)).toBeUndefined();
  });
});
