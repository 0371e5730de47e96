import { expect, test } from 'vitest';
import { loadModeller, rod, segmentsFor } from '../../src/solids/modeller.ts';

/**
 * Two equal cylinders that cross at right angles share 16/3 r^3 (Archimedes, Method, proposition 2; the Steinmetz
 * solid: https://mathworld.wolfram.com/SteinmetzSolid.html, from memory).
 */
test('the union of two crossed rods is 2 pi r^2 h - 16/3 r^3', async () => {
  const modeller = await loadModeller();
  for (const [radius, height, tolerance] of [
    [10, 60, 0.05],
    [15, 50, 0.005],
    [22, 120, 0.001],
  ]) {
    const along = (x: number, y: number, z: number) =>
      rod(
        modeller,
        [(-x * height) / 2, (-y * height) / 2, (-z * height) / 2],
        [(x * height) / 2, (y * height) / 2, (z * height) / 2],
        radius,
        tolerance,
      );
    const [one, other] = [along(1, 0, 0), along(0, Math.SQRT1_2, Math.SQRT1_2)];
    const n = segmentsFor(radius, tolerance);
    // What an inscribed n-gon leaves out of a circle, over both lengths: no union of the two can miss more.
    const missing =
      2 * height * (Math.PI * radius ** 2 - (n / 2) * radius ** 2 * Math.sin((2 * Math.PI) / n));
    const closed = 2 * Math.PI * radius ** 2 * height - (16 / 3) * radius ** 3;
    const volume = one.add(other).volume();
    expect(volume).toBeLessThan(closed);
    expect(volume).toBeGreaterThan(closed - missing);
    const shared = (16 / 3) * radius ** 3;
    const common = one.intersect(other).volume();
    expect(common).toBeLessThan(shared);
    expect(common).toBeGreaterThan(shared - missing);
  }
  modeller.release();
});
