import type { Vec3 } from '../math/vec.ts';

/** The index of a kind is its code in result arrays. */
export const CLEARANCE_KINDS = [
  'pending',
  'separated',
  'touching',
  'overlapping',
  'beyond',
  'unknown',
] as const;
export type ClearanceKind = Exclude<(typeof CLEARANCE_KINDS)[number], 'pending'>;

/**
 * Clearance of two bodies at a pose. All points are in the frame of body A.
 * - separated: `distanceMm` > 0 between the surfaces, attained at `pointA` and `pointB`.
 * - touching: the surfaces meet (distance 0 exactly or within rounding) and neither is measurably inside the other.
 * - overlapping: the surfaces cross, or one body is inside the other. `distanceMm` < 0: minus the depth of the
 *   deepest point of either surface inside the other body. That point is `pointA` or `pointB`, and the other one is
 *   the nearest point of the other surface. Bodies that share a whole piece, face on face, have no such point.
 *   `distanceMm` is then minus the depth of a point inside both, and the two points are the nearest points of both
 *   surfaces to it. `pointA` is always on A's surface and `pointB` on B's.
 * - beyond: at least `limitMm` apart, errors included; no number.
 * - unknown: cannot be computed. Either a mesh is open and does not cross the other, or the zones of intended contact
 *   cover a whole part.
 */
export type Clearance =
  | {
      kind: 'separated' | 'touching' | 'overlapping';
      distanceMm: number;
      pointA: Vec3;
      pointB: Vec3;
      errorMm: number;
    }
  | { kind: 'beyond'; limitMm: number }
  | { kind: 'unknown'; reason: string };
