import { cross, dot, type Vec3 } from '../../math/vec.ts';
import type { Mesh } from '../../solids/solid.ts';
import { enclosingSurface } from './levelSurface.ts';
import { type MotionCell, vehiclePoint } from './motionCell.ts';
import { type Box, EXCESS_SHARE, type MeasuredBlock, SurfaceBlocks } from './surfaceBlocks.ts';
import type { SweptBody } from './sweptBody.ts';
import { SweptField } from './sweptField.ts';

/** Closed outward solid around a swept body. */
export interface SweptSolid {
  mesh: Mesh;
  volumeMm3: number;
}

/** Far above the rounding of coordinates of metres to Float32, mm: bodies are enlarged by it, and the surface is rounded. */
export const FLOAT32_MM = 0.001;

/**
 * The blocks of a grid from which `solidOf` makes the solid that a body sweeps over all poses of `cells`, nowhere further than
 * `withinMm` outside the true one.
 *
 * The distance from the swept body is computed on the grid (`SweptField`). Poses are not sampled: each cell of poses is
 * bounded as a whole, with an error of second order in its size, so some hundred cells do for all grids. A union of bodies at
 * sampled poses would need some 50,000 of them for a bound of a few mm.
 */
export function blocksAround(body: SweptBody, cells: readonly MotionCell[], withinMm: number): SurfaceBlocks {
  const edgeMm = (withinMm - 2 * FLOAT32_MM) / EXCESS_SHARE;
  return new SurfaceBlocks(new SweptField(body, cells), boxAround(body, cells, 3 * edgeMm), edgeMm);
}

/**
 * The solid of blocks that are measured, as a closed mesh. It contains the swept body, proved and not sampled
 * (`enclosingSurface`). Coordinates are rounded to Float32, as files store them.
 */
export function solidOf(blocks: SurfaceBlocks, measured: readonly MeasuredBlock[]): SweptSolid {
  const mesh = enclosingSurface(blocks, measured);
  return { mesh, volumeMm3: volumeOf(mesh) };
}

/** A box around the swept body and `marginMm` more. */
function boxAround(body: SweptBody, cells: readonly MotionCell[], marginMm: number): Box {
  const least = [Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY];
  const most = least.map((value) => -value);
  for (const { terms, spreadMm } of cells) {
    const reachMm = body.reachMm + spreadMm + marginMm;
    vehiclePoint(terms, [0, 0, 0]).forEach((c, i) => {
      least[i] = Math.min(least[i], c - reachMm);
      most[i] = Math.max(most[i], c + reachMm);
    });
  }
  return { least: least as unknown as Vec3, most: most as unknown as Vec3 };
}

/** Volume inside a closed outward surface, mm3. */
export function volumeOf({ positions, triangles }: Mesh): number {
  let sixfold = 0;
  const at = (vertex: number): Vec3 => [
    positions[3 * vertex],
    positions[3 * vertex + 1],
    positions[3 * vertex + 2],
  ];
  for (let i = 0; i < triangles.length; i += 3)
    sixfold += dot(at(triangles[i]), cross(at(triangles[i + 1]), at(triangles[i + 2])));
  return sixfold / 6;
}
