import type { Reach } from '../../../src/app/view3d/frame.ts';
import { dot, type Vec3 } from '../../../src/math/vec.ts';

/** Extent of points along an axis, mm. */
export const reachOfPoints =
  (points: readonly Vec3[]): Reach =>
  (axis) => {
    const along = points.map((point) => dot(point, axis));
    return {
      low: along.reduce((least, at) => Math.min(least, at), Number.POSITIVE_INFINITY),
      high: along.reduce((most, at) => Math.max(most, at), Number.NEGATIVE_INFINITY),
    };
  };
