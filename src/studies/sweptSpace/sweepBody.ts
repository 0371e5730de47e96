import { identity } from '../../math/rigid.ts';
import { cross, dot, type Vec3 } from '../../math/vec.ts';
import { type Modeller, putMesh, takeMesh } from '../../solids/modeller.ts';
import type { Mesh } from '../../solids/solid.ts';
import { type Box, levelSurface } from './levelSurface.ts';
import { type MotionCell, vehiclePoint } from './motionCell.ts';
import { proveSurface } from './provedSurface.ts';
import type { SweptBody } from './sweptBody.ts';
import { SweptField } from './sweptField.ts';

/** Closed outward solid around a swept body. */
export interface SweptSolid {
  mesh: Mesh;
  volumeMm3: number;
  /** No point of its surface is further outside the swept body than this, mm. */
  excessMm: number;
  /** A hollow of the swept body in which no ball of this diameter fits may be filled, mm. */
  hollowMm: number;
}

/** Shares of the excess: distance of the surface from the body, and by how much vertices may move. */
const LEVEL_SHARE = 0.5;
const SIMPLIFY_SHARE = 0.15;
/** Edge of the cubes of the first surface, as a multiple of the excess. */
const EDGE_SHARE = 1;

/**
 * The solid that a body sweeps over all poses of `cells`, as a closed mesh that contains it: proved, not sampled. No point of
 * its surface is further than `withinMm` outside the swept body.
 *
 * How: the first surface is a level of the distance field on a coarse grid (`levelSurface`), with fewer triangles where it is
 * flat. What it may lack is found afterwards: every triangle is proved to keep clear of every pose, and to be near some
 * pose, and is divided until it is (`proveSurface`). The grid's edge then does not enter the bound, so that flat regions have
 * large triangles. A union of bodies at sampled poses would need each of some 50,000 poses for the same bound; a level surface
 * that is right by its grid alone would need some 20 million triangles.
 *
 * The surface does not meet the swept body, which is connected if the body is, so the winding number of the surface is the
 * same at all its points, and is checked at one. Throws an Error if it is not 1, or the surface cannot be proved.
 * `inside`: a point inside the body, in its frame. `onProgress` receives a share from 0 to 1.
 */
export function sweepBody(
  body: SweptBody,
  cells: readonly MotionCell[],
  { withinMm, inside }: { withinMm: number; inside: readonly Vec3[] },
  modeller: Modeller,
  onProgress: (share: number) => void = () => {},
): SweptSolid {
  const field = new SweptField(body, cells);
  const levelMm = LEVEL_SHARE * withinMm;
  const edgeMm = EDGE_SHARE * withinMm;
  const coarse = levelSurface(field, boxAround(body, cells, edgeMm + levelMm), levelMm, edgeMm, (share) =>
    onProgress(GRID_SHARE * share),
  );
  try {
    const simple = takeMesh(
      putMesh(modeller, coarse, identity()).simplify(SIMPLIFY_SHARE * withinMm),
      identity(),
    );
    const { mesh, excessMm } = proveSurface(field, simple.mesh, { levelMm, mostMm: withinMm }, (done, all) =>
      onProgress(GRID_SHARE + (1 - GRID_SHARE) * (done / all)),
    );
    for (const point of inside) {
      const turns = windingNumber(mesh, vehiclePoint(cells[0].terms, point));
      if (Math.abs(turns - 1) > 1e-3)
        throw new Error(`the surface goes round the swept body ${turns.toFixed(3)} times instead of once`);
    }
    return {
      mesh,
      volumeMm3: volumeOf(mesh),
      excessMm,
      hollowMm: 2 * (levelMm + (Math.sqrt(3) / 2) * edgeMm + SIMPLIFY_SHARE * withinMm),
    };
  } finally {
    modeller.release();
  }
}

/** Part of the progress that the first surface takes. */
const GRID_SHARE = 0.4;

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

/** How often a closed outward surface goes round a point: the sum of the solid angles of its triangles, by 4 pi. */
export function windingNumber({ positions, triangles }: Mesh, [x, y, z]: Vec3): number {
  let sum = 0;
  for (let i = 0; i < triangles.length; i += 3) {
    const [a, b, c] = [0, 1, 2].map((k): Vec3 => {
      const at = 3 * triangles[i + k];
      return [positions[at] - x, positions[at + 1] - y, positions[at + 2] - z];
    });
    const [la, lb, lc] = [Math.hypot(...a), Math.hypot(...b), Math.hypot(...c)];
    const triple = dot(a, cross(b, c));
    // Van Oosterom and Strackee 1983, from memory.
    sum += 2 * Math.atan2(triple, la * lb * lc + dot(a, b) * lc + dot(b, c) * la + dot(c, a) * lb);
  }
  return sum / (4 * Math.PI);
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
