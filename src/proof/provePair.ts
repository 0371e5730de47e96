import { isCovered } from '../clearance/body.ts';
import { CLEARANCE_KINDS } from '../clearance/clearance.ts';
import { PairQuery } from '../clearance/query.ts';
import { reportedClearance } from '../clearance/reportedClearance.ts';
import { applyPoint, compose, invert } from '../math/rigid.ts';
import type { Vec3 } from '../math/vec.ts';
import { alignmentAt } from '../mechanism/alignment.ts';
import { solvePose } from '../mechanism/solvePose.ts';
import { POSE_STATES } from '../sweep/result.ts';
import type { Setup } from '../sweep/setUp.ts';
import type { MovedBoxes } from './proveBoxes.ts';
import type { PoseCell } from './proveCells.ts';
import type { PairAtPose, PairSteps, ProvedPair, ProvedPoses } from './provedPair.ts';
import {
  type DividedProof,
  divide,
  type Effort,
  halvesOf,
  lesser,
  type OpenCell,
  type OpenCellData,
  type Outcome,
  type PartResult,
  reaches,
  type Search,
  sum,
  toData,
} from './proveParts.ts';
import { PROVED, type SurfacePair, surfacePairsOf } from './surfacePairs.ts';

/** A pair this far above its target and allowances is not bounded more closely, mm. */
export const FAR_MM = 20;
/**
 * Effort of a pair before its tolerance doubles. It is counted, not timed, so that the proof is the same on every
 * machine and with any number of threads. No pair of the demo corners takes more than 467 cells or 2.4 million
 * evaluations, at about 130 ns each. From 0.1 mm the tolerance doubles at most 9 times before the pair counts as
 * unproved.
 */
const BUDGET: Effort = { cells: 3_000, evaluations: 10_000_000 };
/** Effort of a pair before its proof is divided; counted for the same reason. */
const UNDIVIDED: Effort = { cells: 1_000, evaluations: 4_000_000 };
/** A cell is halved before any search if the error of its motion model exceeds this share of the bound. */
const REST_SHARE = 1 / 4;
/**
 * Pairs of triangles measured in a cell before it is halved. Beyond `LARGE_CELL` halvings the number doubles with
 * each.
 */
const MAX_TRIANGLE_PAIRS = 4000;
const LARGE_CELL = 12;
/** Steps of the descent to a smaller clearance, as shares of the sweep's steps: the first and the smallest. */
const FIRST_SHARE = 1 / 2;
const FINEST_SHARE = 1 / 32;
const DIRECTIONS = [
  [1, 0],
  [-1, 0],
  [0, 1],
  [0, -1],
] as const;

export interface ProofOptions {
  /** Largest width of the interval, mm. */
  toleranceMm: number;
  /** Effort before the tolerance doubles; BUDGET by default. */
  budget?: Effort;
  /** Effort before the proof is divided; UNDIVIDED by default. */
  undivided?: Effort;
}

/** Proves the pairs of one sweep, one at a time. */
export class PairProver {
  private readonly setup: Setup;
  private readonly poses: ProvedPoses;
  /** Cells that make up the reachable rectangle. */
  private readonly cells: readonly PoseCell[];
  private readonly boxes: MovedBoxes;
  private cachedSurfacePairs: readonly SurfacePair[] | undefined;
  private readonly pair: number;
  private readonly query: PairQuery;
  private readonly finestMm: number;
  private readonly budget: Effort;
  private readonly undivided: Effort;
  private minStepMm = Number.POSITIVE_INFINITY;
  /** The smallest clearance found, mm, and its pose. */
  private foundMm = Number.POSITIVE_INFINITY;
  private at: { travelMm: number; steer: number } | undefined;
  /** Bound to prove for a pair that is far above its target, mm. */
  private readonly farMm: number;

  constructor(
    setup: Setup,
    poses: ProvedPoses,
    cells: readonly PoseCell[],
    boxes: MovedBoxes,
    pair: number,
    { toleranceMm, budget = BUDGET, undivided = UNDIVIDED }: ProofOptions,
  ) {
    this.setup = setup;
    this.poses = poses;
    this.cells = cells;
    this.pair = pair;
    this.boxes = boxes;
    this.finestMm = toleranceMm;
    this.budget = budget;
    this.undivided = undivided;
    const { a, b } = setup.bodies[pair];
    this.query = new PairQuery(a, b);
    const { targetMm, allowanceMm } = setup.pairs[pair];
    this.farMm = targetMm + allowanceMm + FAR_MM;
  }

  /** Starts the proof: proves the pair or divides the proof. Yields the number of cells searched so far. */
  *prove(steps: PairSteps): Generator<number, Outcome> {
    const isComplete = this.readSteps(steps);
    const { a, b } = this.setup.bodies[this.pair];
    if (!isComplete || !a.closed || !b.closed || isCovered(a) || isCovered(b))
      return this.result(Number.NEGATIVE_INFINITY, false);
    if (!this.setup.pairs[this.pair].moves) return this.result(this.foundMm, true);
    this.descend(FIRST_SHARE);
    const unproved = this.surfacePairs.map(() => undefined);
    const open = this.cells.map((cell) => ({ cell, unproved })).reverse();
    const search = newSearch(open, this.finestMm, { ...this.budget });
    for (;;) {
      yield* this.searchCells(search, lesser(this.undivided, search.budget));
      if (!this.shouldContinue(search)) return this.finish(search);
      if (reaches(search.spent, this.undivided)) return this.divideSearch(search);
    }
  }

  /** Searches one part of a divided proof. Yields the number of cells of the part searched so far. */
  *searchPart(
    { state, partBudget }: Pick<DividedProof, 'state' | 'partBudget'>,
    cells: readonly OpenCellData[],
  ): Generator<number, PartResult> {
    this.restore(state);
    const search = newSearch(this.fromData(cells), state.toleranceMm, partBudget);
    yield* this.searchCells(search, partBudget);
    const { foundMm, at } = this;
    const { lowerMm, spent, isStuck } = search;
    return { foundMm, at, lowerMm, spent, isStuck, open: toData(search.open) };
  }

  /**
   * Merges the results of all parts, in the order of the parts. Afterwards the pair is proved or the proof is divided
   * again.
   */
  merge({ state }: Pick<DividedProof, 'state'>, parts: readonly PartResult[]): Outcome {
    this.restore(state);
    for (const { foundMm, at } of parts) {
      if (foundMm >= this.foundMm) continue;
      this.foundMm = foundMm;
      this.at = at;
    }
    const { toleranceMm, budget } = state;
    const search: Search = {
      open: this.fromData(parts.flatMap(({ open }) => open)),
      toleranceMm,
      budget,
      lowerMm: parts.reduce((least, { lowerMm }) => Math.min(least, lowerMm), state.lowerMm),
      spent: parts.reduce((all, { spent }) => sum(all, spent), state.spent),
      isStuck: parts.some(({ isStuck }) => isStuck),
    };
    return this.shouldContinue(search) ? this.divideSearch(search) : this.finish(search);
  }

  private restore({ foundMm, at, minStepMm }: DividedProof['state']): void {
    this.foundMm = foundMm;
    this.at = at;
    this.minStepMm = minStepMm;
  }

  private fromData(cells: readonly OpenCellData[]): OpenCell[] {
    return cells.map(({ address, unproved }) => ({ cell: this.cells[0].cellAt(address), unproved }));
  }

  /** Created on first use: a pair that does not move needs no search trees. */
  private get surfacePairs(): readonly SurfacePair[] {
    this.cachedSurfacePairs ??= surfacePairsOf(this.setup, this.pair, this.boxes);
    return this.cachedSurfacePairs;
  }

  /** Whether the search continues. Doubles the tolerance if the budget is spent or a cell cannot be halved. */
  private shouldContinue(search: Search): boolean {
    if (search.open.length === 0 || this.foundMm <= 0) return false;
    const isSpent = reaches(search.spent, search.budget);
    if (!search.isStuck && !isSpent) return true;
    if (search.toleranceMm > this.requiredMm()) return false;
    search.toleranceMm *= 2;
    if (isSpent) search.budget = sum(search.budget, this.budget);
    search.isStuck = false;
    return true;
  }

  private divideSearch(search: Search): DividedProof {
    const { foundMm, at, minStepMm } = this;
    return divide(search, { foundMm, at, minStepMm });
  }

  private finish({ open, lowerMm, toleranceMm, spent }: Search): Outcome {
    if (open.length > 0) return this.result(Number.NEGATIVE_INFINITY, false, spent);
    return this.result(lowerMm, toleranceMm === this.finestMm, spent);
  }

  private result(
    lowerMm: number,
    complete: boolean,
    { cells, evaluations } = { cells: 0, evaluations: 0 },
  ): Outcome {
    const { pair, foundMm, at } = this;
    const touches = foundMm <= 0;
    const proved: ProvedPair = {
      pair,
      lowerMm: touches ? Number.NEGATIVE_INFINITY : lowerMm,
      foundMm,
      at,
      between: at !== undefined && foundMm < this.minStepMm ? this.measureBetween(at) : undefined,
      cells,
      evaluations,
      complete: touches || complete,
    };
    return { kind: 'proved', proved };
  }

  /** Measures the pair at a pose that is known to be reached. */
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
      carriers: Float64Array.from(mechanism.carriers.flatMap((carrier) => [...pose.carriers[carrier]])),
      ...reportedClearance(query, 2 * pose.residualMm),
      pointA: placed(query.pointA),
      pointB: placed(query.pointB),
    };
  }

  /** Reads the smallest clearance of the steps. Returns false if the clearance is unknown at a step. */
  private readSteps({ clearanceMm, state }: PairSteps): boolean {
    const { travelMm, steer, poseState } = this.poses;
    for (let step = 0; step < poseState.length; step++) {
      if (POSE_STATES[poseState[step]] === 'pending') return false;
      if (POSE_STATES[poseState[step]] !== 'solved') continue;
      const kind = CLEARANCE_KINDS[state[step]];
      if (kind === 'unknown' || kind === 'pending') return false;
      if (clearanceMm[step] >= this.foundMm) continue;
      this.foundMm = clearanceMm[step];
      this.at = { travelMm: travelMm[Math.floor(step / steer.length)], steer: steer[step % steer.length] };
    }
    this.minStepMm = this.foundMm;
    return true;
  }

  /**
   * Measures at a pose, up to a limit. Keeps a clearance that is smaller than the smallest found, and returns whether
   * it is.
   */
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
   * Descends from the smallest clearance found to smaller ones near it. The first step is this share of the sweep's
   * steps; the step doubles after each success and halves after each failure.
   */
  private descend(firstShare: number): void {
    const { travelMm, steer } = this.setup;
    const [low, high] = [travelMm[0], travelMm[travelMm.length - 1]];
    const stepMm = (high - low) / (travelMm.length - 1);
    const stepSteer = 2 / (steer.length - 1);
    const finest = Math.min(FINEST_SHARE, firstShare / 4);
    let share = firstShare;
    while (this.at !== undefined && this.foundMm > 0 && this.foundMm < this.farMm && share >= finest) {
      const { travelMm: z, steer: s } = this.at;
      const improved = DIRECTIONS.some(([dz, ds]) => {
        const toMm = Math.min(high, Math.max(low, z + dz * share * stepMm));
        const toSteer = Math.min(1, Math.max(-1, s + ds * share * stepSteer));
        return (toMm !== z || toSteer !== s) && this.measure(toMm, toSteer, this.foundMm);
      });
      share = improved ? Math.min(1, 2 * share) : share / 2;
    }
  }

  /**
   * Branch and bound: removes cells that are proved and halves the others, until no cell is open, `limit` is reached
   * or a cell cannot be halved any more.
   */
  private *searchCells(search: Search, limit: Effort): Generator<number, void> {
    const { open, spent, toleranceMm } = search;
    const { surfacePairs } = this;
    while (this.foundMm > 0 && !reaches(spent, limit)) {
      const next = open.pop();
      if (next === undefined) return;
      const { cell, unproved } = next;
      spent.cells += 1;
      yield spent.cells;
      const boundMm = this.boundToProveMm(toleranceMm);
      const request = {
        boundMm,
        maxRestMm: REST_SHARE * boundMm,
        maxTrianglePairs: MAX_TRIANGLE_PAIRS * 2 ** Math.max(0, cell.halvings - LARGE_CELL),
      };
      const left = surfacePairs.map((one, w) => {
        if (unproved[w]?.length === 0) return PROVED;
        const isProved = one.provesSeparation(
          cell,
          { ...request, maxEvaluations: limit.evaluations - spent.evaluations },
          unproved[w],
        );
        spent.evaluations += one.evaluations;
        return isProved ? PROVED : one.left;
      });
      const failed = surfacePairs.find((_, w) => left[w] !== PROVED);
      if (failed === undefined) {
        search.lowerMm = Math.min(search.lowerMm, boundMm);
        continue;
      }
      if (
        failed.middleMm < this.foundMm &&
        this.measure(cell.travelMm, cell.steer, Math.max(this.finestMm, 2 * failed.middleMm))
      ) {
        this.descend(Math.min(1, cell.steerHalf * (this.setup.steer.length - 1)));
        // The bound to prove is now smaller, so the cell is searched again.
        open.push({ cell, unproved: left });
        continue;
      }
      const isSpent = reaches(spent, limit);
      const halves = isSpent ? undefined : halvesOf(cell, failed.halvingOf(cell));
      if (halves === undefined) {
        open.push({ cell, unproved: left });
        search.isStuck = !isSpent;
        return;
      }
      for (const half of [halves[1], halves[0]]) open.push({ cell: half, unproved: left });
    }
  }

  /**
   * Upper end of the interval to prove: the smallest clearance found, or a sufficient value for a pair that is far
   * above its target.
   */
  private requiredMm(): number {
    return Math.min(this.foundMm, this.farMm + this.finestMm);
  }

  /** Lower bound to prove: the goal less the tolerance, but always above contact. */
  private boundToProveMm(toleranceMm: number): number {
    return Math.max(this.requiredMm() - toleranceMm, this.requiredMm() / 2);
  }
}

const newSearch = (open: OpenCell[], toleranceMm: number, budget: Effort): Search => ({
  open,
  toleranceMm,
  budget,
  lowerMm: Number.POSITIVE_INFINITY,
  spent: { cells: 0, evaluations: 0 },
  isStuck: false,
});
