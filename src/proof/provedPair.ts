import type { Vec3 } from '../math/vec.ts';
import type { SweepResult } from '../sweep/result.ts';

/**
 * The proved interval of a pair's smallest clearance over the whole continuous rectangle of travel and steer, between
 * the two meshes. Chord errors, zone cuts and the poses' residuals add to it, as in `errorMm` of a step.
 */
export interface ProvedPair {
  /** Index into the sweep's pairs. */
  pair: number;
  /**
   * Lower bound of the clearance at all reachable poses outside the locked-out parts. -Infinity if the pair touches,
   * or if nothing could be proved (`complete` is then false).
   */
  lowerMm: number;
  /** The smallest clearance found, at a step or between steps; +Infinity if none was found within the search limit. */
  foundMm: number;
  /** Pose of the smallest clearance; undefined if none was found. */
  at: { travelMm: number; steer: number } | undefined;
  /** Measurement at that pose, if its clearance is smaller than at every step. */
  between: PairAtPose | undefined;
  /** Number of cells searched. */
  cells: number;
  /** Number of pairs of boxes and of triangles evaluated in these cells. */
  evaluations: number;
  /**
   * Whether the proof is complete: the interval is within the tolerance, or its lower end is at least the pair's
   * target, allowances and FAR_MM. True for a pair that touches, which needs no proof.
   */
  complete: boolean;
}

/** A pair measured at one pose. */
export interface PairAtPose {
  travelMm: number;
  steer: number;
  roadWheelAngleDeg: number;
  /** Carriers of that pose, laid out as for a step of SweepResult. */
  carriers: Float64Array;
  clearanceMm: number;
  /**
   * Error bound of the clearance: both chord errors, the solver's residual and the query's own bound. Infinity: see
   * `reportedClearance`.
   */
  errorMm: number;
  /** Vehicle axes at the pose, left corner. */
  pointA: Vec3;
  pointB: Vec3;
}

/** The parts of a sweep's poses that a proof reads. */
export type ProvedPoses = Pick<SweepResult, 'travelMm' | 'steer' | 'poseState'>;

/** The parts of one pair's steps that a proof reads. */
export type PairSteps = Pick<SweepResult, 'state' | 'clearanceMm'>;

/** All parts of a sweep that a proof reads. */
export type ProvedSteps = ProvedPoses & PairSteps;

/** The steps of one pair of a sweep, as views of the same memory. */
export function stepsOfPair({ poseState, state, clearanceMm }: ProvedSteps, pair: number): PairSteps {
  const [from, to] = [pair * poseState.length, (pair + 1) * poseState.length];
  return { state: state.subarray(from, to), clearanceMm: clearanceMm.subarray(from, to) };
}
