import type { Vec3 } from '../../math/vec.ts';
import type { Place } from './dimensionDrawing.ts';

/** An arrow of the marker from its middle, px. */
export interface MarkerArrow {
  name: 'up' | 'front';
  x: number;
  y: number;
}

/** Length of an arrow square to the line of sight, px. */
export const ARROW_PX = 22;
/** Shorter than this an arrow points at the eye or away from it, and has no direction to show. */
const LEAST_PX = 4;

/**
 * Arrows up and toward the vehicle's front as a camera without perspective shows them, px with y down. `project` gives the
 * px place of a point as shown.
 */
export function markerArrows(project: (point: Vec3) => Place): MarkerArrow[] {
  const origin = project([0, 0, 0]);
  const along = (axis: Vec3) => {
    const { x, y } = project(axis);
    return { x: x - origin.x, y: y - origin.y };
  };
  const axes = [along([1, 0, 0]), along([0, 1, 0]), along([0, 0, 1])];
  // The squares of three axes square to each other, projected, add up to twice the square of the scale.
  const pxPerMm = Math.sqrt(axes.reduce((sum, { x, y }) => sum + x * x + y * y, 0) / 2);
  const [front, , up] = axes.map(({ x, y }) => ({
    x: (x * ARROW_PX) / pxPerMm,
    y: (y * ARROW_PX) / pxPerMm,
  }));
  return [
    { name: 'up' as const, ...up },
    { name: 'front' as const, ...front },
  ].filter(({ x, y }) => Math.hypot(x, y) >= LEAST_PX);
}
