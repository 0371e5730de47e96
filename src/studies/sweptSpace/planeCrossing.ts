import type { Side } from '../../design/side.ts';
import { dot, scale, type Vec3 } from '../../math/vec.ts';
import { type MotionCell, vehiclePoint } from './motionCell.ts';
import type { SpunPiece } from './spunBody.ts';

/** A plane that should keep out of the space: a fender or a rail is on the side to which `normal` points. */
export interface SpacePlane {
  /** As typed. */
  label: string;
  point: Vec3;
  /** Unit vector. */
  normal: Vec3;
}

/** A plane for a side: for the right one mirrored in the plane Y = 0. */
export const sidedPlane = ({ label, point, normal }: SpacePlane, side: Side): SpacePlane =>
  side === 'left'
    ? { label, point, normal }
    : {
        label,
        point: [point[0], -point[1], point[2]],
        normal: [normal[0], -normal[1], normal[2]],
      };

/** How far the swept space reaches beyond a plane. */
export interface PlaneCrossing {
  plane: SpacePlane;
  /** Largest distance beyond the plane, mm; negative if the space stays clear of it. The true value is in [depthMm, depthMm + errorMm]. */
  depthMm: number;
  errorMm: number;
  /** Where that is. */
  travelMm: number;
  steer: number;
  at: Vec3;
}

/** The search ends within this, mm: more than twice the error of the smallest cells, below which no division helps. */
const TOLERANCE_MM = 0.25;
/** Most cells of a search. Counted, so that every machine stops at the same place. */
const MOST_CELLS = 20_000;

/**
 * How far the space reaches beyond a plane, by branch and bound over the cells of poses. At one pose, the furthest point of a
 * body of revolution is at a corner of its profile, in closed form. Over a cell, no point of the body moves further than the
 * cell's spread from the middle. `errorMm`: by how much the pieces exceed the true parts at most.
 */
export function planeCrossing(
  plane: SpacePlane,
  pieces: readonly SpunPiece[],
  cells: readonly MotionCell[],
  errorMm: number,
): PlaneCrossing {
  const corners = pieces.flatMap(({ outline, growthMm }) => outline.map(([r, y]) => ({ r, y, growthMm })));
  const best = { depthMm: Number.NEGATIVE_INFINITY, travelMm: 0, steer: 0, at: plane.point };
  const consider = (cell: MotionCell): { cell: MotionCell; mostMm: number } => {
    const reached = furthest(plane, corners, cell.terms);
    const certain = reached.depthMm - cell.errorMm;
    if (certain > best.depthMm)
      Object.assign(best, {
        depthMm: certain,
        at: reached.at,
        travelMm: cell.range.travelMm,
        steer: cell.range.steer,
      });
    return { cell, mostMm: reached.depthMm + cell.spreadMm };
  };
  let open = cells.map(consider);
  let left = MOST_CELLS;
  for (; left > 0; ) {
    open = open.filter(({ mostMm }) => mostMm > best.depthMm + TOLERANCE_MM);
    if (open.length === 0) break;
    left -= open.length;
    open = open.flatMap(({ cell }) => cell.halves().map(consider));
  }
  const boundMm = Math.max(best.depthMm + TOLERANCE_MM, ...open.map(({ mostMm }) => mostMm));
  // The pieces exceed the true parts; the true depth is less by up to that.
  return { plane, ...best, depthMm: best.depthMm - errorMm, errorMm: boundMm - best.depthMm + errorMm };
}

/** The furthest point of the body beyond a plane at the middle of a cell. */
function furthest(
  { point, normal }: SpacePlane,
  corners: readonly { r: number; y: number; growthMm: number }[],
  t: Float64Array,
): { depthMm: number; at: Vec3 } {
  // The normal in the body's frame.
  const [nx, ny, nz] = [0, 4, 8].map((row) => dot([t[row], t[row + 1], t[row + 2]], normal));
  const across = Math.hypot(nx, nz);
  const [ex, ez] = across > 0 ? [nx / across, nz / across] : [1, 0];
  let most = { value: Number.NEGATIVE_INFINITY, r: 0, y: 0, growthMm: 0 };
  for (const { r, y, growthMm } of corners) {
    const value = r * across + y * ny + growthMm;
    if (value > most.value) most = { value, r, y, growthMm };
  }
  const surface = vehiclePoint(t, [most.r * ex, most.y, most.r * ez]);
  const grown = scale(normal, most.growthMm);
  const at: Vec3 = [surface[0] + grown[0], surface[1] + grown[1], surface[2] + grown[2]];
  return { depthMm: dot([at[0] - point[0], at[1] - point[1], at[2] - point[2]], normal), at };
}
