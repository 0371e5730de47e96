import { addScaled, type Vec3 } from '../../math/vec.ts';
import { ball } from '../../solids/ball.ts';
import { type Manifold, type Modeller, rod } from '../../solids/modeller.ts';

/** A disc, cylinder or tube. With a half length of 0 it is a plane disc; with equal radii, a cylindrical surface. */
export interface Round {
  centre: Vec3;
  /** Unit vector. */
  axis: Vec3;
  halfLengthMm: number;
  radiusMm: number;
  /** Default 0. */
  innerRadiusMm?: number;
}

/** A region of intended contact by nominal dimensions, in ride-height vehicle coordinates. */
export type Region =
  | { shape: 'ball'; centre: Vec3; radiusMm: number }
  | ({ shape: 'round' } & Round)
  /** The convex hull of some discs. */
  | { shape: 'hull'; rounds: readonly Round[] }
  /** The whole volume that the two solids share. */
  | { shape: 'all' };

/** Tolerance of the polygons that enclose the circles of a region, mm. */
export const REGION_TOLERANCE_MM = 0.02;

/**
 * The solid of a region, enlarged by `errorMm` on every side. It contains the enlarged region and exceeds it by at
 * most REGION_TOLERANCE_MM. Undefined for `all`.
 */
export function regionSolid(modeller: Modeller, region: Region, errorMm: number): Manifold | undefined {
  switch (region.shape) {
    case 'all':
      return undefined;
    case 'ball':
      return ball(modeller, region.radiusMm + errorMm + REGION_TOLERANCE_MM, REGION_TOLERANCE_MM).translate(
        region.centre,
      );
    case 'round':
      return roundSolid(modeller, region, errorMm);
    case 'hull':
      return modeller.Manifold.hull(region.rounds.map((round) => roundSolid(modeller, round, errorMm)));
  }
}

function roundSolid(modeller: Modeller, round: Round, errorMm: number): Manifold {
  const { centre, axis, halfLengthMm, radiusMm, innerRadiusMm = 0 } = round;
  const cylinder = (half: number, radius: number) =>
    rod(modeller, addScaled(centre, axis, -half), addScaled(centre, axis, half), radius, REGION_TOLERANCE_MM);
  const half = halfLengthMm + errorMm;
  const whole = cylinder(half, radiusMm + errorMm + REGION_TOLERANCE_MM);
  const inner = innerRadiusMm - errorMm;
  return inner > 0 ? whole.subtract(cylinder(half + 1, inner)) : whole;
}
