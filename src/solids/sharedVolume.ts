import { compose, type Rigid, translation } from '../math/rigid.ts';
import { addScaled, type Vec3 } from '../math/vec.ts';
import { type Manifold, type Modeller, matrix16, putMesh, rod, segmentsFor } from './modeller.ts';
import type { Mesh, Zone } from './solid.ts';

/** Chord tolerance of zones, mm. */
const ZONE_TOLERANCE_MM = 0.01;

/**
 * Volume that two closed outward meshes share outside the zones, mm^3, computed by the solid modeller. Zones move with both
 * meshes. Throws an Error with the modeller's status if a mesh is not closed. Coordinates are rounded to Float32 relative to
 * the middle of the first mesh.
 */
export function sharedVolumeMm3(
  modeller: Modeller,
  a: Mesh,
  b: Mesh,
  aFromB: Rigid,
  zones: readonly Zone[] = [],
): number {
  try {
    const [x, y, z] = middleOf(a);
    const toMiddle = translation([-x, -y, -z]);
    const [one, other] = [a, b].map((mesh, which) => {
      const placed = which === 0 ? toMiddle : compose(toMiddle, aFromB);
      const solid = putMesh(modeller, mesh, placed);
      if (solid.status() !== 'NoError') throw new Error(`no closed mesh: ${solid.status()}`);
      return zones.reduce((left, zone) => left.subtract(zoneSolid(modeller, zone, placed)), solid);
    });
    return one.intersect(other).volume();
  } finally {
    modeller.release();
  }
}

function middleOf({ positions }: Mesh): Vec3 {
  const middle = (k: number): number => {
    const along = positions.filter((_, i) => i % 3 === k);
    return (along.reduce((low, x) => Math.min(low, x)) + along.reduce((high, x) => Math.max(high, x))) / 2;
  };
  return [middle(0), middle(1), middle(2)];
}

function zoneSolid(modeller: Modeller, zone: Zone, modelFromZone: Rigid): Manifold {
  const { centre, radiusMm } = zone;
  const solid =
    zone.shape === 'sphere'
      ? modeller.Manifold.sphere(radiusMm, segmentsFor(radiusMm, ZONE_TOLERANCE_MM)).translate(centre)
      : rod(
          modeller,
          addScaled(centre, zone.axis, -zone.halfThicknessMm),
          addScaled(centre, zone.axis, zone.halfThicknessMm),
          radiusMm,
          ZONE_TOLERANCE_MM,
        );
  return solid.transform(matrix16(modelFromZone));
}
