import type { Body } from '../clearance/body.ts';
import { buildTree, type Tree, withOrientedBoxes } from '../clearance/tree.ts';
import type { Carrier } from '../design/schema.ts';
import type { Setup } from '../sweep/setUp.ts';
import type { PoseSpan } from './poseSpan.ts';
import type { MovedBoxes } from './proveBoxes.ts';
import type { PoseCell } from './proveCells.ts';
import { CellSearch, type SearchRequest } from './proveSearch.ts';

/**
 * A point is off a surface if it is further away than this, mm. Rounding is subtracted first, so any distance above 0
 * would do. This is far above the remaining rounding (about 1e-10 mm at a distance of one metre) and far below the
 * size of any part.
 */
const OFF_SURFACE_MM = 1e-6;

/** No unproved node pairs. */
export const PROVED = new Int32Array(0);

/**
 * The pairs of surfaces of a pair of bodies that must keep a distance. If no zone is cut out, these are the two
 * surfaces: they are outside each other at every step, so they cannot get inside each other without touching. If
 * zones are cut out, one point of each piece of a surface must also keep off the other body's whole mesh, because a
 * piece could slip inside through the hole that its zone leaves.
 */
export function surfacePairsOf(setup: Setup, pair: number, boxes: MovedBoxes): SurfacePair[] {
  const { a, b } = setup.pairs[pair];
  const bodies = setup.bodies[pair];
  const one = { carrier: setup.solids[a].carrier, body: bodies.a };
  const other = { carrier: setup.solids[b].carrier, body: bodies.b };
  const surfacePairs = [new SurfacePair(one, bodies.a.surface, other, bodies.b.surface, boxes, undefined)];
  for (const [holder, piece] of [
    [one, other],
    [other, one],
  ]) {
    if (bodies.a.surface === bodies.a.whole && bodies.b.surface === bodies.b.whole) break;
    const points = pointsTree(piece.body.pieces);
    const whole = withOrientedBoxes(holder.body.whole);
    surfacePairs.push(new SurfacePair(holder, whole, piece, points, boxes, OFF_SURFACE_MM));
  }
  return surfacePairs;
}

interface Carried {
  carrier: Carrier;
  body: Body;
}

/** Two surfaces that must keep a distance under the relative motion of their carriers. */
export class SurfacePair {
  private readonly fixed: Carried;
  private readonly mover: Carried;
  private readonly search: CellSearch;
  private readonly ownBoundMm: number | undefined;

  constructor(
    one: Carried,
    oneTree: Tree,
    other: Carried,
    otherTree: Tree,
    boxes: MovedBoxes,
    ownBoundMm: number | undefined,
  ) {
    // The smaller one is taken to move, because its nodes are placed in every cell.
    const swap = oneTree.right.length < otherTree.right.length;
    this.fixed = swap ? other : one;
    this.mover = swap ? one : other;
    this.search = new CellSearch(swap ? otherTree : oneTree, swap ? oneTree : otherTree, boxes);
    this.ownBoundMm = ownBoundMm;
  }

  provesSeparation(poses: PoseSpan, request: SearchRequest, open?: Int32Array): boolean {
    const motion = poses.motion(this.fixed.carrier, this.mover.carrier);
    return this.search.provesSeparation(
      motion,
      { ...request, boundMm: this.ownBoundMm ?? request.boundMm },
      open,
    );
  }

  /** Number of pairs of boxes and of triangles evaluated in the last cell. */
  get evaluations(): number {
    return this.search.evaluations;
  }

  /** Unproved node pairs of the last cell, if its proof failed. */
  get left(): Int32Array {
    return this.search.left;
  }

  get middleMm(): number {
    return this.search.middleMm;
  }

  /**
   * The direction in which halving a failed cell gains most: the one with more motion, or the one with more model
   * error.
   */
  halvingOf(cell: PoseCell): 'travel' | 'steer' {
    const { byX, byY, restMm } = this.search;
    if (restMm > Math.max(byX, byY)) return cell.widerAlong;
    return byX >= byY ? 'travel' : 'steer';
  }
}

/** Points as triangles of zero size. */
function pointsTree(pieces: Float64Array): Tree {
  const triangles = Uint32Array.from({ length: pieces.length }, (_, k) => Math.floor(k / 3));
  return withOrientedBoxes(buildTree({ positions: pieces, triangles }));
}
