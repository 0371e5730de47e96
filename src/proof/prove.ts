/**
 * Proves the clearances between the steps of a sweep: for each pair an interval that contains its smallest clearance
 * over the whole continuous rectangle of travel and steer.
 *
 * Branch and bound over cells of the rectangle. Over a cell, Taylor models enclose the motion of every carrier
 * (mechanism/enclosure). The motions of a pair's carriers are combined into the motion of one body in the other's
 * frame (proveMotion), and the two surfaces are shown to keep a distance under that motion (proveSearch). A cell
 * without a proof is halved; if its middle has a smaller clearance than any found before, that becomes the clearance
 * found. A cell's loss is of second order in its size, so few cells are needed for a minimum inside the rectangle or
 * along a valley.
 *
 * Tried first: the bound that no point of a body's box moves further than L. Its loss is of first order, and L is the
 * whole distance that a body slides: a minimum inside the rectangle then takes about (L / tolerance)^2 cells.
 */

import type { Setup } from '../sweep/setUp.ts';
import { MovedBoxes } from './proveBoxes.ts';
import type { PairSteps, ProvedPair, ProvedPoses } from './provedPair.ts';
import { divideAtLockOuts, type LockedOut } from './proveLockedOut.ts';
import { PairProver } from './provePair.ts';
import type { DividedProof, OpenCellData, Outcome, PartResult } from './proveParts.ts';

export {
  type PairAtPose,
  type PairSteps,
  type ProvedPair,
  type ProvedPoses,
  stepsOfPair,
} from './provedPair.ts';
export type { LockedOut } from './proveLockedOut.ts';
export { FAR_MM } from './provePair.ts';
export type { DividedProof, OpenCellData, Outcome, PartResult } from './proveParts.ts';

export interface Proof {
  pairs: ProvedPair[];
  /** Parts of the rectangle without a proof, because the mechanism is not shown to work there. */
  lockedOut: readonly LockedOut[];
}

/** Largest width of a proved interval, mm. */
export const PROOF_TOLERANCE_MM = 0.1;

/**
 * Proves a sweep pair by pair; the order does not affect the numbers. A long proof is divided into parts, which can
 * run on different threads. The division does not depend on the number of threads.
 */
export class Prover {
  readonly lockedOut: readonly LockedOut[];
  private readonly proverOf: (pair: number) => PairProver;

  /** Throws a RangeError for a tolerance that is not above 0. */
  constructor(setup: Setup, poses: ProvedPoses, toleranceMm = PROOF_TOLERANCE_MM) {
    if (!(toleranceMm > 0))
      throw new RangeError(`proof tolerance ${toleranceMm} mm: the tolerance must be greater than 0`);
    const { cells, lockedOut } = divideAtLockOuts(setup, poses);
    const boxes = new MovedBoxes();
    this.lockedOut = lockedOut;
    this.proverOf = (pair) => new PairProver(setup, poses, cells, boxes, pair, { toleranceMm });
  }

  /** Proves a pair from its steps. */
  prove(pair: number, steps: PairSteps): ProvedPair {
    return runToEnd(this.stepThrough(pair, steps));
  }

  /**
   * Proves a pair cell by cell; yields the number of cells searched so far. Finish one proof before starting the
   * next.
   */
  *stepThrough(pair: number, steps: PairSteps): Generator<number, ProvedPair> {
    let outcome = yield* this.begin(pair, steps);
    while (outcome.kind === 'divided') {
      const results: PartResult[] = [];
      let before = outcome.state.spent.cells;
      for (const cells of outcome.parts) {
        const part = this.searchPart(pair, outcome, cells);
        let step = part.next();
        for (; step.done !== true; step = part.next()) yield before + step.value;
        before += step.value.spent.cells;
        results.push(step.value);
      }
      outcome = this.merge(pair, outcome, results);
    }
    return outcome.proved;
  }

  /** Starts the proof of a pair; see `PairProver.prove`. */
  begin(pair: number, steps: PairSteps): Generator<number, Outcome> {
    return this.proverOf(pair).prove(steps);
  }

  /** Searches one part of a divided proof; see `PairProver.searchPart`. */
  searchPart(
    pair: number,
    proof: Pick<DividedProof, 'state' | 'partBudget'>,
    cells: readonly OpenCellData[],
  ): Generator<number, PartResult> {
    return this.proverOf(pair).searchPart(proof, cells);
  }

  /** Merges the results of all parts; see `PairProver.merge`. */
  merge(pair: number, proof: Pick<DividedProof, 'state'>, results: readonly PartResult[]): Outcome {
    return this.proverOf(pair).merge(proof, results);
  }
}

/** Runs a proof, or a part of one, to its end; calls `onCells` after each cell. */
export function runToEnd<T>(steps: Generator<number, T>, onCells?: (cells: number) => void): T {
  for (;;) {
    const step = steps.next();
    if (step.done === true) return step.value;
    onCells?.(step.value);
  }
}
