/**
 * What lies between the steps of a sweep, proved: for each pair an interval that holds its worst clearance over the
 * whole continuous rectangle of travel and steer.
 *
 * Branch and bound over cells of the rectangle. Over a cell every carrier's motion is enclosed in Taylor models
 * (mechanism/enclosure), those of a pair are put together to the motion of one body in the other's frame (proveMotion),
 * and the two surfaces are shown to keep a distance under it (proveSearch). A cell where that cannot be shown is halved;
 * where its middle comes out nearer than anything found, that is what is found from then on. As what a cell loses is of
 * second order in its size, few cells are needed where the clearance is least inside the rectangle, or along a valley.
 *
 * Tried first: the bound that no point of a body's box moves further than L. What it loses is of first order, and L the
 * whole way a body slides: a worst case inside the rectangle then takes about (L / tolerance)^2 cells.
 */

import { MovedBoxes } from './proveBoxes.ts';
import { cutOut, type LockedOut } from './proveLockedOut.ts';
import { PairProver, type PairSteps, type ProvedPair, type ProvedPoses } from './provePair.ts';
import type { Setup } from './setUp.ts';

export type { LockedOut } from './proveLockedOut.ts';
export {
  FAR_MM,
  type PairAtPose,
  type PairSteps,
  type ProvedPair,
  type ProvedPoses,
  stepsOfPair,
} from './provePair.ts';

export interface Proof {
  pairs: ProvedPair[];
  /** Parts of the rectangle about which nothing is proved, as the mechanism is not shown to run on there. */
  lockedOut: readonly LockedOut[];
}

/** Greatest width of a proved interval, mm. */
export const PROOF_TOLERANCE_MM = 0.1;

/** Proves a sweep pair by pair, in any order; the same numbers come out whatever the order. */
export class Prover {
  readonly lockedOut: readonly LockedOut[];
  private readonly proverOf: (pair: number, steps: PairSteps) => PairProver;

  /** Throws a RangeError for a tolerance that is not above 0. */
  constructor(setup: Setup, poses: ProvedPoses, toleranceMm = PROOF_TOLERANCE_MM) {
    if (!(toleranceMm > 0)) throw new RangeError(`a proof needs a tolerance above 0, not ${toleranceMm} mm`);
    const { cells, lockedOut } = cutOut(setup, poses);
    const boxes = new MovedBoxes();
    this.lockedOut = lockedOut;
    this.proverOf = (pair, steps) => new PairProver(setup, poses, steps, cells, boxes, pair, { toleranceMm });
  }

  /** Proves a pair, of which these are the steps, to its end; calls `onCells` with the number of cells looked at so far, after each cell. */
  prove(pair: number, steps: PairSteps, onCells?: (cells: number) => void): ProvedPair {
    const proof = this.stepThrough(pair, steps);
    for (;;) {
      const step = proof.next();
      if (step.done === true) return step.value;
      onCells?.(step.value);
    }
  }

  /** The proof of a pair, cell by cell: yields the number of cells looked at so far. Run one at a time to its end. */
  stepThrough(pair: number, steps: PairSteps): Generator<number, ProvedPair> {
    return this.proverOf(pair, steps).prove();
  }
}
