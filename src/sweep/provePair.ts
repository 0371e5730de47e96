import type { Body } from '../clearance/body.ts';
import { CLEARANCE_KINDS } from '../clearance/clearance.ts';
import { PairQuery } from '../clearance/query.ts';
import { buildTree, type Tree, withOrientedBoxes } from '../clearance/tree.ts';
import { compose, invert } from '../math/rigid.ts';
import type { PoseResult } from '../mechanism/pose.ts';
import { solvePose } from '../mechanism/solvePose.ts';
import type { MovedBoxes } from './proveBoxes.ts';
import type { PoseCell } from './proveCells.ts';
import { type Asked, CellSearch } from './proveSearch.ts';
import { POSE_STATES, type SweepResult } from './result.ts';
import type { Setup } from './setUp.ts';

/**
 * The worst clearance of a pair over the whole continuous rectangle of travel and steer, as measured between the two
 * meshes (chord errors, zone cuts and the poses' residuals come on top, as `errorMm` of a step).
 */
export interface ProvedPair {
  /** Index into the sweep's pairs. */
  pair: number;
  /**
   * No reachable pose of the rectangle outside the locked-out parts has a clearance below this. -Infinity where there is
   * nothing to prove (the pair touches) or nothing could be proved (`complete` is false then).
   */
  lowerMm: number;
  /** The least clearance found, at a step or between steps; +Infinity where none was found within the search limit. */
  foundMm: number;
  /** Where it was found; undefined where none was found. */
  at: { travelMm: number; steer: number } | undefined;
  /** Cells looked at. */
  cells: number;
  /**
   * Whether the proof was carried through as asked: the interval is within the tolerance, or its lower end is at least
   * the pair's target, allowances and FAR_MM. True for a pair that touches: that is found, and needs no proof.
   */
  complete: boolean;
}

/** A pair this far above its target and allowances is not closed in on any further, mm. */
export const FAR_MM = 20;
/** Cells a pair may take before it is closed in on half as closely. */
const MOST_CELLS = 3_000;
/** A point keeps off a surface when it is further away than this, mm: any distance beyond rounding does. */
const OFF_SURFACE_MM = 1e-6;
/** Cells over which a motion is not known to this share of the clearance to be proved are halved before any search. */
const REST_SHARE = 1 / 4;
/** Pairs of triangles measured in a cell before it is halved; beyond `LARGE_CELL` halvings more are worth it. */
const MOST_PAIRS = 2000;
const LARGE_CELL = 12;
/** Steps of the walk down to a least clearance end at this share of its first step. */
const FINEST_SHARE = 1 / 32;

export interface ProofOptions {
  /** Greatest width of the interval, mm. */
  toleranceMm: number;
}

/** Proves the pairs of one sweep, one at a time. */
export class PairProver {
  private readonly setup: Setup;
  private readonly result: SweepResult;
  /** Cells that make up the reachable rectangle. */
  private readonly cells: readonly PoseCell[];
  private readonly boxes: MovedBoxes;
  private readonly pair: number;
  private readonly query: PairQuery;
  private readonly toleranceMm: number;
  private foundMm = Number.POSITIVE_INFINITY;
  private at: { travelMm: number; steer: number } | undefined;
  /** At least this is wanted of a pair that is far from its target. */
  private readonly farMm: number;

  constructor(
    setup: Setup,
    result: SweepResult,
    cells: readonly PoseCell[],
    boxes: MovedBoxes,
    pair: number,
    { toleranceMm }: ProofOptions,
  ) {
    this.setup = setup;
    this.result = result;
    this.cells = cells;
    this.boxes = boxes;
    this.pair = pair;
    this.toleranceMm = toleranceMm;
    const { a, b } = setup.bodies[pair];
    this.query = new PairQuery(a, b);
    const { targetMm, allowanceMm } = setup.pairs[pair];
    this.farMm = targetMm + allowanceMm + FAR_MM;
  }

  prove(): ProvedPair {
    const known = this.readSteps();
    const { a, b } = this.setup.bodies[this.pair];
    if (!known || !a.closed || !b.closed) return this.told(Number.NEGATIVE_INFINITY, 0, false);
    if (!this.setup.pairs[this.pair].moves) return this.told(this.foundMm, 0, true);
    if (this.foundMm <= 0) return this.told(Number.NEGATIVE_INFINITY, 0, true);
    this.walkDown(this.stepTravelMm(), this.stepSteer());
    return this.closeIn();
  }

  private told(lowerMm: number, cells: number, complete: boolean): ProvedPair {
    const { pair, foundMm, at } = this;
    return { pair, lowerMm, foundMm, at, cells, complete };
  }

  private stepTravelMm(): number {
    const { travelMm } = this.setup;
    return (travelMm[travelMm.length - 1] - travelMm[0]) / (travelMm.length - 1);
  }

  private stepSteer(): number {
    return 2 / (this.setup.steer.length - 1);
  }

  /** The least clearance of the steps; false where it is unknown at one. */
  private readSteps(): boolean {
    const { travelMm, steer, poseState, clearanceMm, state } = this.result;
    const steps = poseState.length;
    for (let step = 0; step < steps; step++) {
      if (POSE_STATES[poseState[step]] === 'pending') return false;
      if (POSE_STATES[poseState[step]] !== 'solved') continue;
      const at = this.pair * steps + step;
      const kind = CLEARANCE_KINDS[state[at]];
      if (kind === 'unknown' || kind === 'pending') return false;
      if (clearanceMm[at] >= this.foundMm) continue;
      this.foundMm = clearanceMm[at];
      this.at = { travelMm: travelMm[Math.floor(step / steer.length)], steer: steer[step % steer.length] };
    }
    return true;
  }

  /** Measures at a pose; keeps what is less than the least found. */
  private measure(pose: PoseResult): boolean {
    if (pose.kind !== 'solved') return false;
    const { a, b } = this.setup.pairs[this.pair];
    const { solids } = this.setup;
    const aFromB = compose(invert(pose.carriers[solids[a].carrier]), pose.carriers[solids[b].carrier]);
    this.query.run(aFromB, Math.min(this.foundMm, this.farMm + this.toleranceMm));
    const { kind, distanceMm } = this.query;
    if (kind === 'unknown' || kind === 'beyond' || distanceMm >= this.foundMm) return false;
    this.foundMm = distanceMm;
    this.at = { travelMm: pose.travelMm, steer: pose.steer };
    return true;
  }

  /** Walks from the least clearance found to lesser ones beside it, in steps that halve where none is less. */
  private walkDown(travelStepMm: number, steerStep: number): void {
    const { travelMm, steer, mechanism } = this.setup;
    let share = 0.5;
    while (this.at !== undefined && this.foundMm > 0 && this.foundMm < this.farMm && share >= FINEST_SHARE) {
      const { travelMm: z, steer: s } = this.at;
      const better = [
        [1, 0],
        [-1, 0],
        [0, 1],
        [0, -1],
      ].some(([dz, ds]) => {
        const toMm = Math.min(
          travelMm[travelMm.length - 1],
          Math.max(travelMm[0], z + dz * share * travelStepMm),
        );
        const toSteer = Math.min(steer[steer.length - 1], Math.max(steer[0], s + ds * share * steerStep));
        return (toMm !== z || toSteer !== s) && this.measure(solvePose(mechanism, toMm, toSteer));
      });
      if (!better) share /= 2;
    }
  }

  /** Branch and bound: cells whose clearance is shown to keep what is to be proved are done, others are halved. */
  private closeIn(): ProvedPair {
    const searches = this.searches();
    const waiting = [...this.cells].reverse();
    let toleranceMm = this.toleranceMm;
    let lowerMm = Number.POSITIVE_INFINITY;
    let cells = 0;
    let allowed = MOST_CELLS;
    for (let cell = waiting.pop(); cell !== undefined; cell = waiting.pop()) {
      cells += 1;
      const leastMm = this.worthProving(toleranceMm);
      const asked = {
        leastMm,
        mostRestMm: REST_SHARE * leastMm,
        mostPairs: MOST_PAIRS * 2 ** Math.max(0, cell.halvings - LARGE_CELL),
      };
      const failed = searches.find((search) => !search.keeps(cell, asked));
      if (failed === undefined) {
        lowerMm = Math.min(lowerMm, leastMm);
        continue;
      }
      if (failed.middleMm < this.foundMm && this.measure(cell.pose))
        this.walkDown(2 * cell.travelHalfMm, 2 * cell.steerHalf);
      if (this.foundMm <= 0) return this.told(Number.NEGATIVE_INFINITY, cells, true);
      const halves = failed.travelCounts
        ? (cell.halves('travel') ?? cell.halves('steer'))
        : (cell.halves('steer') ?? cell.halves('travel'));
      if (halves !== undefined && cells < allowed) {
        waiting.push(halves[1], halves[0]);
        continue;
      }
      // Closed in on half as closely from here on, the cell again among the rest.
      if (toleranceMm > this.foundMm) return this.told(Number.NEGATIVE_INFINITY, cells, false);
      toleranceMm *= 2;
      allowed += MOST_CELLS;
      waiting.push(cell);
    }
    return this.told(lowerMm, cells, toleranceMm === this.toleranceMm);
  }

  /**
   * What is to be proved at the least clearance found so far: that less the tolerance, but always more than contact, and
   * no more than is asked of a pair that is far from its target.
   */
  private worthProving(toleranceMm: number): number {
    return Math.min(this.farMm, Math.max(this.foundMm - toleranceMm, this.foundMm / 2));
  }

  /**
   * What must keep its distance: the two surfaces; and, where zones are cut out of them, one point of each piece of a
   * surface from the other body's whole mesh. A piece could else slip inside through a hole that its zone leaves. Where
   * no zone is cut, surfaces that nowhere meet cannot slip inside each other between a pose where they are outside, as
   * they are at each step, and any other.
   */
  private searches(): Watched[] {
    const { a, b } = this.setup.pairs[this.pair];
    const bodies = this.setup.bodies[this.pair];
    const one = { carrier: this.setup.solids[a].carrier, body: bodies.a };
    const other = { carrier: this.setup.solids[b].carrier, body: bodies.b };
    const watched = [new Watched(one, bodies.a.surface, other, bodies.b.surface, this.boxes, undefined)];
    for (const [holder, piece] of [
      [one, other],
      [other, one],
    ]) {
      if (bodies.a.surface === bodies.a.whole && bodies.b.surface === bodies.b.whole) break;
      const points = pointsTree(piece.body.pieces);
      const whole = withOrientedBoxes(holder.body.whole);
      watched.push(new Watched(holder, whole, piece, points, this.boxes, OFF_SURFACE_MM));
    }
    return watched;
  }
}

interface Carried {
  carrier: keyof NonNullable<PoseCell['carriers']>;
  body: Body;
}

/** Two surfaces that must keep a distance, whichever of them is taken to move. */
class Watched {
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

  keeps(cell: PoseCell, asked: Asked): boolean {
    const motion = cell.motion(this.fixed.carrier, this.mover.carrier);
    return this.search.keeps(motion, { ...asked, leastMm: this.ownLeastMm ?? asked.leastMm });
  }

  get middleMm(): number {
    return this.search.middleMm;
  }

  get travelCounts(): boolean {
    return this.search.byX >= this.search.byY;
  }
}

/** Points as triangles of no size. */
function pointsTree(pieces: Float64Array): Tree {
  const triangles = Uint32Array.from({ length: pieces.length }, (_, k) => Math.floor(k / 3));
  return withOrientedBoxes(buildTree({ positions: pieces, triangles }));
}
