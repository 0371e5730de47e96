import { compose, type Rigid, translation } from '../../src/math/rigid.ts';
import { type Modeller, putMesh } from '../../src/solids/modeller.ts';
import type { Mesh } from '../../src/solids/solid.ts';

/**
 * The volume that two closed outward meshes share, mm^3, as manifold-3d intersects them. Throws an Error that names the
 * modeller's finding where a mesh is not closed. Coordinates are rounded to Float32 about the first mesh's own middle.
 */
export function overlapVolumeMm3(modeller: Modeller, a: Mesh, b: Mesh, aFromB: Rigid): number {
  const middle = [0, 1, 2].map((k) => {
    const along = a.positions.filter((_, i) => i % 3 === k);
    return (along.reduce((low, x) => Math.min(low, x)) + along.reduce((high, x) => Math.max(high, x))) / 2;
  });
  const toMiddle = translation([-middle[0], -middle[1], -middle[2]]);
  const one = putMesh(modeller, a, toMiddle);
  const other = putMesh(modeller, b, compose(toMiddle, aFromB));
  for (const solid of [one, other])
    if (solid.status() !== 'NoError') throw new Error(`no closed mesh: ${solid.status()}`);
  const volume = one.intersect(other).volume();
  modeller.release();
  return volume;
}
