import type { Vec3 } from '../math/vec.ts';

/** Order is the code stored in result arrays. */
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
 * - overlapping: surfaces cross, or one body lies inside the other. `distanceMm` < 0: minus the depth of the deepest
 *   point of either body's surface inside the other. That point is `pointA` or `pointB`, and the other one is the nearest
 *   point of the other surface. Bodies that share a whole piece, face on face, have no such point: `distanceMm` is then
 *   minus the depth of a point inside both, and the two points are where both surfaces lie nearest to it. In every case
 *   `pointA` is on A's surface and `pointB` on B's.
 * - beyond: at least `limitMm` apart, errors included; no number.
 * - unknown: not computable: an open mesh that does not cross the other, or a part of which the zones of intended contact
 *   leave nothing.
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
