import { isCovered } from '../clearance/body.ts';
import { CLEARANCE_KINDS } from '../clearance/clearance.ts';
import { PairQuery } from '../clearance/query.ts';
import { reportedClearance } from '../clearance/reportedClearance.ts';
import { CARRIERS } from '../design/schema.ts';
import { applyPoint, compose, invert } from '../math/rigid.ts';
import type { Vec3 } from '../math/vec.ts';
import { alignmentAt } from '../mechanism/alignment.ts';
import { solvePose } from '../mechanism/solvePose.ts';
import type { MovedBoxes } from './proveBoxes.ts';
import type { PoseCell } from './proveCells.ts';
import { NONE, watchedOf } from './proveWatched.ts';
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
  /** The pair as measured there, if that is less than at every step. */
  between: PairAtPose | undefined;
  /** Cells looked at. */
  cells: number;
  /** Pairs of boxes and of triangles looked at in these cells. */
  looks: number;
  /**
   * Whether the proof was carried through as asked: the interval is within the tolerance, or its lower end is at least
   * the pair's target, allowances and FAR_MM. True for a pair that touches: that is found, and needs no proof.
   */
  complete: boolean;
}

/** A pair measured at one pose. */
export interface PairAtPose {
  travelMm: number;
  steer: number;
  roadWheelAngleDeg: number;
  /** Of that pose, as of a step of SweepResult. */
  carriers: Float64Array;
  clearanceMm: number;
  /**
   * The clearance is right to within this: both chord errors, the solver's residual, the query's own bound. Infinity: see
   * `reportedClearance`.
   */
  errorMm: number;
  /** Vehicle axes at the pose, left corner. */
  pointA: Vec3;
  pointB: Vec3;
}

/** What a proof reads of the poses of a sweep. */
export type ProvedPoses = Pick<SweepResult, 'travelMm' | 'steer' | 'poseState'>;

/** What it reads of one pair at these poses. */
export type PairSteps = Pick<SweepResult, 'state' | 'clearanceMm'>;

/** What a proof reads of a sweep. */
export type ProvedSteps = ProvedPoses & PairSteps;

/** Of a sweep the steps of one pair, in the same memory. */
export function stepsOfPair({ poseState, state, clearanceMm }: ProvedSteps, pair: number): PairSteps {
  const [from, to] = [pair * poseState.length, (pair + 1) * poseState.length];
  return { state: state.subarray(from, to), clearanceMm: clearanceMm.subarray(from, to) };
}

/** A pair this far above its target and allowances is not closed in on any further, mm. */
export const FAR_MM = 20;
/**
 * What a pair may take before it is closed in on half as closely: counted, not timed, so that the proof is the same on
 * every machine and with any number of threads. No pair of the demo corners takes more than 467 cells or 2.4 million
 * looks, at about 130 ns a look. From 0.1 mm the tolerance doubles 9 times at most before the pair is unproved.
 */
const BUDGET: Effort = { cells: 3_000, looks: 10_000_000 };
const NO_EFFORT: Effort = { cells: 0, looks: 0 };
/** Cells over which a motion is not known to this share of the clearance to be proved are halved before any search. */
const REST_SHARE = 1 / 4;
/** Pairs of triangles measured in a cell before it is halved; beyond `LARGE_CELL` halvings more are worth it. */
const MOST_PAIRS = 4000;
const LARGE_CELL = 12;
/** Steps of the walk down to a least clearance, as shares of the sweep's: the first, and where it ends. */
const FIRST_SHARE = 1 / 2;
const FINEST_SHARE = 1 / 32;
const DIRECTIONS = [
  [1, 0],
  [-1, 0],
  [0, 1],
  [0, -1],
] as const;

/** What a proof takes: cells, and pairs of boxes and of triangles looked at in them. */
interface Effort {
  cells: number;
  looks: number;
}

export interface ProofOptions {
  /** Greatest width of the interval, mm. */
  toleranceMm: number;
  /** What a pair may take before it is closed in on half as closely; BUDGET unless given. */
  budget?: Effort;
}

/** Proves the pairs of one sweep, one at a time. */
export class PairProver {
  private readonly setup: Setup;
  private readonly poses: ProvedPoses;
  private readonly steps: PairSteps;
  /** Cells that make up the reachable rectangle. */
  private readonly cells: readonly PoseCell[];
  private readonly boxes: MovedBoxes;
  private readonly pair: number;
  private readonly query: PairQuery;
  private readonly toleranceMm: number;
  private readonly budget: Effort;
  private foundMm = Number.POSITIVE_INFINITY;
  private leastOfStepsMm = Number.POSITIVE_INFINITY;
  private at: { travelMm: number; steer: number } | undefined;
  /** At least this is wanted of a pair that is far from its target. */
  private readonly farMm: number;

  constructor(
    setup: Setup,
    poses: ProvedPoses,
    steps: PairSteps,
    cells: readonly PoseCell[],
    boxes: MovedBoxes,
    pair: number,
    { toleranceMm, budget = BUDGET }: ProofOptions,
  ) {
    this.setup = setup;
    this.poses = poses;
    this.steps = steps;
    this.cells = cells;
    this.boxes = boxes;
    this.pair = pair;
    this.toleranceMm = toleranceMm;
    this.budget = budget;
    const { a, b } = setup.bodies[pair];
    this.query = new PairQuery(a, b);
    const { targetMm, allowanceMm } = setup.pairs[pair];
    this.farMm = targetMm + allowanceMm + FAR_MM;
  }

  /** Runs the proof; yields the number of cells looked at so far after each cell. */
  *prove(): Generator<number, ProvedPair> {
    const known = this.readSteps();
    const { a, b } = this.setup.bodies[this.pair];
    if (!known || !a.closed || !b.closed || isCovered(a) || isCovered(b))
      return this.told(Number.NEGATIVE_INFINITY, false);
    if (!this.setup.pairs[this.pair].moves) return this.told(this.foundMm, true);
    this.walkDown(FIRST_SHARE);
    return yield* this.closeIn();
  }

  private told(lowerMm: number, complete: boolean, { cells, looks } = NO_EFFORT): ProvedPair {
    const { pair, foundMm, at } = this;
    const touches = foundMm <= 0;
    return {
      pair,
      lowerMm: touches ? Number.NEGATIVE_INFINITY : lowerMm,
      foundMm,
      at,
      between: at !== undefined && foundMm < this.leastOfStepsMm ? this.measureBetween(at) : undefined,
      cells,
      looks,
      complete: touches || complete,
    };
  }

  /** The pair at a pose that was measured before. */
  private measureBetween({ travelMm, steer }: { travelMm: number; steer: number }): PairAtPose | undefined {
    const { mechanism, solids, pairs, tyre } = this.setup;
    const pose = solvePose(mechanism, travelMm, steer);
    if (pose.kind !== 'solved') return undefined;
    const vehicleFromA = pose.carriers[solids[pairs[this.pair].a].carrier];
    const vehicleFromB = pose.carriers[solids[pairs[this.pair].b].carrier];
    const { query } = this;
    query.run(compose(invert(vehicleFromA), vehicleFromB), Number.POSITIVE_INFINITY);
    const placed = ([x, y, z]: Float64Array): Vec3 => applyPoint(vehicleFromA, [x, y, z]);
    return {
      travelMm,
      steer,
      roadWheelAngleDeg: alignmentAt(mechanism, pose, tyre).roadWheelAngleDeg,
      carriers: Float64Array.from(CARRIERS.flatMap((carrier) => [...pose.carriers[carrier]])),
      ...reportedClearance(query, 2 * pose.residualMm),
      pointA: placed(query.pointA),
      pointB: placed(query.pointB),
    };
  }

  /** The least clearance of the steps; false where it is unknown at one. */
  private readSteps(): boolean {
    const { travelMm, steer, poseState } = this.poses;
    const { clearanceMm, state } = this.steps;
    for (let step = 0; step < poseState.length; step++) {
      if (POSE_STATES[poseState[step]] === 'pending') return false;
      if (POSE_STATES[poseState[step]] !== 'solved') continue;
      const kind = CLEARANCE_KINDS[state[step]];
      if (kind === 'unknown' || kind === 'pending') return false;
      if (clearanceMm[step] >= this.foundMm) continue;
      this.foundMm = clearanceMm[step];
      this.at = { travelMm: travelMm[Math.floor(step / steer.length)], steer: steer[step % steer.length] };
    }
    this.leastOfStepsMm = this.foundMm;
    return true;
  }

  /** Measures at a pose; keeps what is less than the least found. Above the limit nothing is looked for. */
  private measure(travelMm: number, steer: number, limitMm: number): boolean {
    const pose = solvePose(this.setup.mechanism, travelMm, steer);
    if (pose.kind !== 'solved') return false;
    const { a, b } = this.setup.pairs[this.pair];
    const { solids } = this.setup;
    const aFromB = compose(invert(pose.carriers[solids[a].carrier]), pose.carriers[solids[b].carrier]);
    this.query.run(aFromB, Math.min(this.foundMm, limitMm));
    const { kind, distanceMm } = this.query;
    if (kind === 'unknown' || kind === 'beyond' || distanceMm >= this.foundMm) return false;
    this.foundMm = distanceMm;
    this.at = { travelMm: pose.travelMm, steer: pose.steer };
    return true;
  }

  /**
   * Walks from the least clearance found to lesser ones beside it, at first by this share of the sweep's steps; by twice
   * as much after each step that finds less, by half as much where none does.
   */
  private walkDown(firstShare: number): void {
    const { travelMm, steer } = this.setup;
    const [low, high] = [travelMm[0], travelMm[travelMm.length - 1]];
    const stepMm = (high - low) / (travelMm.length - 1);
    const stepSteer = 2 / (steer.length - 1);
    const finest = Math.min(FINEST_SHARE, firstShare / 4);
    let share = firstShare;
    while (this.at !== undefined && this.foundMm > 0 && this.foundMm < this.farMm && share >= finest) {
      const { travelMm: z, steer: s } = this.at;
      const better = DIRECTIONS.some(([dz, ds]) => {
        const toMm = Math.min(high, Math.max(low, z + dz * share * stepMm));
        const toSteer = Math.min(1, Math.max(-1, s + ds * share * stepSteer));
        return (toMm !== z || toSteer !== s) && this.measure(toMm, toSteer, this.foundMm);
      });
      share = better ? Math.min(1, 2 * share) : share / 2;
    }
  }

  /** Branch and bound: cells whose clearance is shown to keep what is to be proved are done, others are halved. */
  private *closeIn(): Generator<number, ProvedPair> {
    const searches = watchedOf(this.setup, this.pair, this.boxes);
    const waiting: Waiting[] = this.cells
      .map((cell) => ({ cell, open: searches.map(() => undefined) }))
      .reverse();
    let toleranceMm = this.toleranceMm;
    let lowerMm = Number.POSITIVE_INFINITY;
    const spent = { ...NO_EFFORT };
    const allowed = { cells: this.budget.cells, looks: this.budget.looks };
    for (let next = waiting.pop(); next !== undefined && this.foundMm > 0; next = waiting.pop()) {
      const { cell, open } = next;
      spent.cells += 1;
      yield spent.cells;
      const leastMm = this.worthProving(toleranceMm);
      const asked = {
        leastMm,
        mostRestMm: REST_SHARE * leastMm,
        mostPairs: MOST_PAIRS * 2 ** Math.max(0, cell.halvings - LARGE_CELL),
      };
      const left = searches.map((search, s) => {
        if (open[s] === NONE) return NONE;
        const keeps = search.keeps(cell, { ...asked, mostLooks: allowed.looks - spent.looks }, open[s]);
        spent.looks += search.looks;
        return keeps ? NONE : search.left;
      });
      const failed = searches.find((_, s) => left[s] !== NONE);
      if (failed === undefined) {
        lowerMm = Math.min(lowerMm, leastMm);
        continue;
      }
      if (
        failed.middleMm < this.foundMm &&
        this.measure(cell.travelMm, cell.steer, Math.max(this.toleranceMm, 2 * failed.middleMm))
      ) {
        this.walkDown(Math.min(1, cell.steerHalf * (this.setup.steer.length - 1)));
        // Less is now to be proved of the cell, too.
        waiting.push({ cell, open: left });
        continue;
      }
      const along = failed.halvingOf(cell);
      const halves = cell.halves(along) ?? cell.halves(along === 'travel' ? 'steer' : 'travel');
      if (halves !== undefined && spent.cells < allowed.cells && spent.looks < allowed.looks) {
        for (const half of [halves[1], halves[0]]) waiting.push({ cell: half, open: left });
        continue;
      }
      // Closed in on half as closely from here on, the cell again among the rest.
      if (toleranceMm > this.wantedMm()) return this.told(Number.NEGATIVE_INFINITY, false, spent);
      toleranceMm *= 2;
      allowed.cells += this.budget.cells;
      allowed.looks += this.budget.looks;
      waiting.push({ cell, open: left });
    }
    return this.told(lowerMm, toleranceMm === this.toleranceMm, spent);
  }

  /** What is closed in on: the least clearance found, or what is enough for a pair that is far from its target. */
  private wantedMm(): number {
    return Math.min(this.foundMm, this.farMm + this.toleranceMm);
  }

  /** What is to be proved of it: that less the tolerance, but always more than contact. */
  private worthProving(toleranceMm: number): number {
    return Math.max(this.wantedMm() - toleranceMm, this.wantedMm() / 2);
  }
}

/** A cell that is to be looked at, and what of each watched pair of surfaces is still to be shown there. */
interface Waiting {
  cell: PoseCell;
  open: readonly (Int32Array | undefined)[];
}
