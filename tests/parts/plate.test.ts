import { describe, expect, test } from 'vitest';
import type { Entry } from '../../src/design/schema.ts';
import { applyPoint, compose, rotationAbout, translation } from '../../src/math/rigid.ts';
import { normalize, type Vec3 } from '../../src/math/vec.ts';
import { buildPlate } from '../../src/parts/plate/build.ts';
import { distanceToMeshMm } from '../oracles/meshChecks.ts';
import { between, mulberry32 } from '../oracles/random.ts';
import { benchCorner, contextOf, randomPoint } from '../solids/benchCorner.ts';
import { expectSound } from '../solids/solidChecks.ts';

const SEED = 4103;

const plate = (outline: Vec3[], thickness: number): Entry<'plate'> => ({
  kind: 'plate',
  id: 'gusset',
  allowance: 0,
  carrier: 'chassis',
  outline: outline.map(([x, y, z]) => [x, y, z]),
  thickness,
});

/** Twice the area inside a polygon: the shoelace formula. */
const shoelace = (corners: readonly (readonly [number, number])[]) =>
  corners.reduce((sum, [x, y], i) => {
    const [nx, ny] = corners[(i + 1) % corners.length];
    return sum + x * ny - nx * y;
  }, 0);

describe('a plate', () => {
  test('has volume area x thickness, to the anticlockwise side, for random star-shaped outlines of either orientation', async () => {
    const random = mulberry32(SEED);
    const context = await contextOf(benchCorner());
    for (let i = 0; i < 60; i++) {
      const n = 3 + Math.floor(random() * 9);
      const corners = Array.from({ length: n }, (_, k): [number, number] => {
        const angle = (2 * Math.PI * (k + between(random, -0.3, 0.3))) / n;
        const radius = between(random, 20, 200);
        return [radius * Math.cos(angle), radius * Math.sin(angle)];
      });
      if (random() < 0.5) corners.reverse();
      const turn = rotationAbout([0, 0, 0], normalize(randomPoint(random, 1)), between(random, -3, 3));
      const vehicleFromFlat = compose(translation(randomPoint(random, 800)), turn);
      const thickness = between(random, 1, 30);
      const entry = plate(
        corners.map(([x, y]) => applyPoint(vehicleFromFlat, [x, y, 0])),
        thickness,
      );
      const [solid] = buildPlate(entry, context);
      const about = `seed ${SEED}, plate ${i}: ${JSON.stringify(entry)}`;
      expectSound(solid, about);
      const twiceArea = shoelace(corners);
      expect(Math.abs(solid.volumeMm3 / ((Math.abs(twiceArea) / 2) * thickness) - 1), about).toBeLessThan(
        1e-6,
      );
      expect(solid.chordErrorMm, about).toBeLessThan(1e-4);
      for (const [x, y] of corners) {
        for (const z of [0, Math.sign(twiceArea) * thickness]) {
          const corner = applyPoint(vehicleFromFlat, [x, y, z]);
          expect(distanceToMeshMm(solid.mesh, corner), about).toBeLessThanOrEqual(solid.chordErrorMm);
        }
      }
    }
  });

  test('names a corner off the plane; within 0.05 mm it adds to the chord error', async () => {
    const context = await contextOf(benchCorner());
    const square = (z: number): Vec3[] => [
      [0, 0, 0],
      [100, 0, 0],
      [100, 100, 0],
      [50, 120, z],
      [0, 100, 0],
    ];
    expect(() => buildPlate(plate(square(3), 5), context)).toThrow(/outline\[\d\] lies .* mm off the plane/);
    const [solid] = buildPlate(plate(square(0.06), 5), context);
    expect(solid.chordErrorMm).toBeGreaterThan(0.01);
    for (const corner of square(0.06)) {
      expect(distanceToMeshMm(solid.mesh, corner)).toBeLessThanOrEqual(solid.chordErrorMm);
    }
  });

  test('rejects outlines that are no simple polygon, naming the corners', async () => {
    const context = await contextOf(benchCorner());
    const buildingWith = (corners: string) => () => {
      const outline = corners.split(', ').map((pair): Vec3 => {
        const [x, y] = pair.split(' ').map(Number);
        return [x, y, 40];
      });
      return buildPlate(plate(outline, 5), context);
    };
    expect(buildingWith('0 0, 100 0, 0 80, 130 120')).toThrow(
      /side from outline\[1\] to outline\[2\] meets the side from outline\[3\] to outline\[0\]/,
    );
    expect(buildingWith('0 0, 100 0, 100 0, 0 80')).toThrow(/outline\[1\] and outline\[2\] are the same/);
    expect(buildingWith('0 0, 100 0, 200 0')).toThrow(/encloses no area/);
    expect(buildingWith('0 0, 100 0, 0 80, 100 80')).toThrow(/encloses no area: .* or it crosses itself/);
    expect(buildingWith('0 0, 100 0, 100 100, 100 20, 0 60')).toThrow(/runs back on itself at outline\[2\]/);
    // A corner that touches another side from within.
    expect(buildingWith('0 0, 100 0, 100 100, 50 0, 0 100')).toThrow(/must not cross or touch itself/);
  });
});
