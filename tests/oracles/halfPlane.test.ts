import { describe, expect, test } from 'vitest';
import { identity } from '../../src/math/rigid.ts';
import { loadModeller, takeMesh } from '../../src/solids/modeller.ts';
import { cutByHalfPlane, signedDistanceToCut, sweptVolumeMm3 } from './halfPlane.ts';

describe('cut by a half plane through the y axis', () => {
  test('gives a rectangle for a box with the axis along its lower side: signed distances and swept volume', async () => {
    const { Manifold } = await loadModeller();
    // x -5..5, y 0..20, z 0..30: at angle 0 the half plane cuts a rectangle of radius 0..30.
    const mesh = takeMesh(Manifold.cube([10, 20, 30]).translate([-5, 0, 0]), identity());
    const cut = cutByHalfPlane(mesh, identity(), 0);
    expect(signedDistanceToCut([10, 12], cut)).toBeCloseTo(-8, 5);
    expect(signedDistanceToCut([33, 24], cut)).toBeCloseTo(5, 5);
    expect(sweptVolumeMm3(cut)).toBeCloseTo(Math.PI * 30 ** 2 * 20, 1);
    expect(cutByHalfPlane(mesh, identity(), Math.PI)).toEqual([]);
    const turned = cutByHalfPlane(mesh, identity(), Math.atan2(3, 4));
    expect(signedDistanceToCut([25 / 3, 10], turned)).toBeCloseTo(0, 5);
  });
});
