import type { Body } from '../clearance/body.ts';
import { buildTree, type Tree, withOrientedBoxes } from '../clearance/tree.ts';
import type { Carrier } from '../design/schema.ts';
import type { PoseSpan } from './poseSpan.ts';
import type { MovedBoxes } from './proveBoxes.ts';
import type { PoseCell } from './proveCells.ts';
import { type Asked, CellSearch } from './proveSearch.ts';
import type { Setup } from './setUp.ts';

/**
 * A point keeps off a surface when it is further away than this, mm. Any distance above 0 would do, as rounding is taken
 * off before; this is far above what is left of it (about 1e-10 mm a metre off) and far below the size of any part.
 */
const OFF_SURFACE_MM = 1e-6;

/** Nothing is left to be shown. */
export const NONE = new Int32Array(0);

/**
 * What of a pair must keep its distance: the two surfaces; and, where zones are cut out of them, one point of each piece
 * of a surface from the other body's whole mesh. A piece could else slip inside through a hole that its zone leaves.
 * Where no zone is cut, surfaces that nowhere meet cannot slip inside each other between a pose where they are outside,
 * as they are at each step, and any other.
 */
export function watchedOf(setup: Setup, pair: number, boxes: MovedBoxes): Watched[] {
  const { a, b } = setup.pairs[pair];
  const bodies = setup.bodies[pair];
  const one = { carrier: setup.solids[a].carrier, body: bodies.a };
  const other = { carrier: setup.solids[b].carrier, body: bodies.b };
  const watched = [new Watched(one, bodies.a.surface, other, bodies.b.surface, boxes, undefined)];
  for (const [holder, piece] of [
    [one, other],
    [other, one],
  ]) {
    if (bodies.a.surface === bodies.a.whole && bodies.b.surface === bodies.b.whole) break;
    const points = pointsTree(piece.body.pieces);
    const whole = withOrientedBoxes(holder.body.whole);
    watched.push(new Watched(holder, whole, piece, points, boxes, OFF_SURFACE_MM));
  }
  return watched;
}

interface Carried {
  carrier: Carrier;
  body: Body;
}

/** Two surfaces that must keep a distance, whichever of them is taken to move. */
export class Watched {
  private readonly fixed: Carried;
  private readonly mover: Carried;
  private readonly search: CellSearch;
  private readonly ownLeastMm: number | undefined;

  constructor(
    one: Carried,
    oneTree: Tree,
    other: Carried,
    otherTree: Tree,
    boxes: MovedBoxes,
    ownLeastMm: number | undefined,
  ) {
    // The smaller one moves: its nodes are placed anew in every cell.
    const swap = oneTree.right.length < otherTree.right.length;
    this.fixed = swap ? other : one;
    this.mover = swap ? one : other;
    this.search = new CellSearch(swap ? otherTree : oneTree, swap ? oneTree : otherTree, boxes);
    this.ownLeastMm = ownLeastMm;
  }

  keeps(poses: PoseSpan, asked: Asked, open?: Int32Array): boolean {
    const motion = poses.motion(this.fixed.carrier, this.mover.carrier);
    return this.search.keeps(motion, { ...asked, leastMm: this.ownLeastMm ?? asked.leastMm }, open);
  }

  /** Pairs of boxes and of triangles that the last cell took. */
  get looks(): number {
    return this.search.looks;
  }

  /** What is still to be shown, of a cell that failed. */
  get left(): Int32Array {
    return this.search.left;
  }

  get middleMm(): number {
    return this.search.middleMm;
  }

  /** The direction in which halving a cell that failed gains most: of what the bodies move, or of what the model leaves out. */
  halvingOf(cell: PoseCell): 'travel' | 'steer' {
    const { byX, byY, restMm } = this.search;
    if (restMm > Math.max(byX, byY)) return cell.widerAlong;
    return byX >= byY ? 'travel' : 'steer';
  }
}

/** Points as triangles of no size. */
function pointsTree(pieces: Float64Array): Tree {
  const triangles = Uint32Array.from({ length: pieces.length }, (_, k) => Math.floor(k / 3));
  return withOrientedBoxes(buildTree({ positions: pieces, triangles }));
}
