import { applyPoint, invert, type Rigid } from '../math/rigid.ts';
import type { Vec3 } from '../math/vec.ts';
import type { BuildContext, BuiltSolid } from './build.ts';
import { type CrossSection, type Modeller, putMesh } from './modeller.ts';
import { ringProfile, turned } from './revolved.ts';
import { roundingMm } from './rounding.ts';
import type { Mesh, SolidKind } from './solid.ts';
import { thinOutline } from './thinOutline.ts';
import { triangleShadow } from './triangleShadow.ts';
import { vehicleFromWheelAxis } from './wheelFrame.ts';

/** Kinds that are built as bodies of revolution about the wheel axis: their mesh is already the swept body. */
const BUILT_TURNED: readonly SolidKind[] = ['wheel', 'tyre', 'hub', 'spacer', 'rotor'];

/** Whether a solid turns with the wheel and its mesh is not yet the swept body. */
export const sweepsWhenTurned = ({ carrier, kind }: Pick<BuiltSolid, 'carrier' | 'kind'>): boolean =>
  carrier === 'wheel' && !BUILT_TURNED.includes(kind);

/** Offset that closes the seams between neighbouring shadows, whose corners the modeller rounds to 1e-8 mm. */
const SEAM_MM = 1e-6;

/** Outlines per union, whose time grows with their square: 15,000 at once took 2.0 s, in batches of 256 0.3 s. */
const BATCH = 256;

/**
 * Profile that a closed outward mesh sweeps in a full turn about the wheel axis, as radius and y of the wheel-axis frame. A
 * circle about the axis either meets the solid's surface or is entirely inside the solid. So the profile is the union of
 * the shadows of all triangles and the cut of the solid by any one half plane. A hollow that no triangle passes through,
 * such as a ring's centre, stays hollow. `errorMm` bounds the distance between swept area and profile in both directions: a
 * quarter of the tolerance is for the shadows, which err outward, the rest for leaving out corners.
 */
export function sweptProfile(
  mesh: Mesh,
  wheelFromMesh: Rigid,
  modeller: Modeller,
  toleranceMm: number,
): { profile: CrossSection; errorMm: number } {
  const { positions, triangles } = mesh;
  const corner = (i: number): Vec3 => {
    const at = 3 * triangles[i];
    return applyPoint(wheelFromMesh, [positions[at], positions[at + 1], positions[at + 2]]);
  };
  const shadows = Array.from({ length: triangles.length / 3 }, (_, t) =>
    triangleShadow([corner(3 * t), corner(3 * t + 1), corner(3 * t + 2)], toleranceMm / 4),
  ).flat();
  const batches = Array.from(
    { length: Math.ceil(shadows.length / BATCH) },
    (_, k) => new modeller.CrossSection(shadows.slice(k * BATCH, (k + 1) * BATCH), 'Positive'),
  );
  // The half plane toward x: the wheel's x and y are the profile's radius and y.
  const cut = putMesh(modeller, mesh, wheelFromMesh).slice(0);
  const joined = modeller.CrossSection.union([...batches, cut]).offset(SEAM_MM, 'Miter');
  const { min, max } = joined.bounds();
  const sharp = joined.intersect(ringProfile(modeller, 0, max[0], min[1], max[1])).toPolygons();
  // NonZero: if thinning swaps the two edges of a sliver, its area turns negative but stays covered.
  const profile = new modeller.CrossSection(
    sharp.map((outline) => thinOutline(outline, (3 / 4) * toleranceMm)),
    'NonZero',
  );
  const reachMm = Math.hypot(max[0], Math.max(Math.abs(min[1]), Math.abs(max[1])));
  return { profile, errorMm: toleranceMm + 4 * SEAM_MM + roundingMm(reachMm) };
}

/**
 * The solid with its swept body as `mesh`, and its own mesh as `unswept` and `shown`. Its own chord error, which a shadow
 * cannot enlarge, adds to that of the sweep.
 */
export function spinEnvelope(solid: BuiltSolid, context: BuildContext): BuiltSolid {
  const wheelFromVehicle = invert(vehicleFromWheelAxis(context.corner.suspension));
  const { profile, errorMm } = sweptProfile(
    solid.mesh,
    wheelFromVehicle,
    context.modeller,
    context.chordToleranceMm / 2,
  );
  const swept = turned(profile, context, errorMm).placed;
  return {
    ...solid,
    ...swept,
    shown: solid.shown ?? solid.mesh,
    unswept: solid.mesh,
    chordErrorMm: solid.chordErrorMm + swept.chordErrorMm,
  };
}
