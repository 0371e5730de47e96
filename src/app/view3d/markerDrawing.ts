import type { Vec3 } from '../../math/vec.ts';
import type { Place } from './dimensionDrawing.ts';

/** Tip of an arrow of the marker, px from the marker's middle. */
export interface MarkerArrow {
  name: 'up' | 'front';
  x: number;
  y: number;
}

/** Length of an arrow square to the line of sight, px. */
export const ARROW_PX = 22;
/** An arrow shorter than this points along the line of sight and is left out. */
const LEAST_PX = 4;

/**
 * Arrows up and to the vehicle's front in a parallel projection, px with y down. `project` returns the place in px of a
 * point as shown.
 */
export function markerArrows(project: (point: Vec3) => Place): MarkerArrow[] {
  const origin = project([0, 0, 0]);
  const along = (axis: Vec3) => {
    const { x, y } = project(axis);
    return { x: x - origin.x, y: y - origin.y };
  };
  const axes = [along([1, 0, 0]), along([0, 1, 0]), along([0, 0, 1])];
  // The squared projected lengths of three orthogonal unit axes sum to twice the squared scale.
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
