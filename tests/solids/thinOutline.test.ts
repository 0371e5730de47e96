import { describe, expect, test } from 'vitest';
import { thinOutline } from '../../src/solids/thinOutline.ts';
import { signedDistanceToCut } from '../oracles/halfPlane.ts';
import { between, mulberry32 } from '../oracles/random.ts';

const SEED = 7422;
type Point = readonly [number, number];

const sides = (outline: readonly Point[]) =>
  outline.map((p, i) => [p, outline[(i + 1) % outline.length]] as const);

describe('thinOutline', () => {
  test('keeps corners in order, and leaves out only corners within the tolerance, for random wavy outlines', () => {
    const random = mulberry32(SEED);
    for (let i = 0; i < 60; i++) {
      const count = 3 + Math.floor(300 * random());
      const wave = between(random, 0, 0.3);
      const outline = Array.from({ length: count }, (_, k): Point => {
        const angle = (2 * Math.PI * k) / count;
        const radius = 50 * (1 + wave * Math.sin(5 * angle)) + between(random, -0.02, 0.02);
        return [200 + radius * Math.cos(angle), radius * Math.sin(angle)];
      });
      const toleranceMm = 10 ** between(random, -3, 0);
      const thin = thinOutline(outline, toleranceMm);
      const about = `seed ${SEED}, outline ${i}, ${count} corners to ${toleranceMm} mm`;
      const places = thin.map((p) => outline.indexOf(p));
      expect(places, about).toEqual([...places].sort((a, b) => a - b));
      expect(new Set(places).size, about).toBe(thin.length);
      for (const p of outline)
        expect(Math.abs(signedDistanceToCut(p, sides(thin))), about).toBeLessThanOrEqual(toleranceMm + 1e-12);
    }
  });

  test('keeps no more corners of a circle than chords twice as fine need', () => {
    const circle = Array.from({ length: 4000 }, (_, k): Point => {
      const angle = (2 * Math.PI * k) / 4000;
      return [100 * Math.cos(angle), 100 * Math.sin(angle)];
    });
    const needed = Math.PI / Math.acos(1 - 0.05 / 100);
    expect(thinOutline(circle, 0.05).length).toBeLessThan(2 * needed);
    expect(thinOutline(circle, 0.05).length).toBeGreaterThanOrEqual(needed);
  });

  test('leaves out corners on straight sides, and keeps a strip narrower than the tolerance', () => {
    const square: Point[] = [
      [0, 0],
      [5, 0],
      [10, 0],
      [10, 10],
      [0, 10],
      [0, 3],
    ];
    expect(thinOutline(square, 1e-6)).toEqual([
      [0, 0],
      [10, 0],
      [10, 10],
      [0, 10],
    ]);
    const strip: Point[] = [
      [0, 0],
      [90, 0],
      [90, 0.01],
      [0, 0.01],
    ];
    expect(thinOutline(strip, 0.05)).toEqual(strip);
  });
});
