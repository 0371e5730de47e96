import type { Algebra, Kind } from '../math/algebra.ts';
import type { NumberKind } from '../math/numbers.ts';
import type { Problem } from '../units/problem.ts';
import type { Carrier, Suspension } from './suspension.ts';

/** The members placed at an angle of the arm and a steering input. A layout adds what its closed form needs later. */
export interface Posed<K extends Kind> {
  /** Rise of the wheel centre from ride height, mm. */
  rise: K['scalar'];
}

/** Rates per radian of the arm with the steering input fixed. A layout adds its own. */
export interface Rates<K extends Kind> {
  rise: K['scalar'];
}

/** Rates that only the solver of poses needs. */
export interface SolverRates {
  /** Rise of the wheel centre per unit of the steering input, with the arm fixed. */
  riseInputRate: number;
  closures: readonly Closure[];
}

/** Two members that close a loop: they must not come in line, where the mechanism could fold over. */
export interface Closure {
  /** +-1 if the two are in line; see `meetingCosine`. */
  cosine: number;
  /** Per radian of the arm with the steering input fixed, and the reverse. */
  armRate: number;
  inputRate: number;
}

/** Lengths, branches and local coordinates of a suspension, as plain data: it is sent to workers. */
export interface Linkage {
  /** Radius of the arm's joint about its pivot line, mm. */
  armRadiusMm: number;
  /** Change of the steering input that turns the upright by about a radian. */
  inputPerRad: number;
}

/**
 * The motion of a layout. Travel turns one arm; the steering moves one input (mm of a rack, or degrees). The closed
 * form is written once, over an algebra. Every layout has a linkage and posed members of its own kind.
 */
export interface Kinematics<L extends Linkage = Linkage> {
  /** Prepares a suspension without `pointProblems` for posing. */
  prepare(suspension: Suspension): L;
  /**
   * Members in line at ride height, and inputs that would not move the wheel. `riseRateMm`: rise of the wheel centre
   * per radian of the arm at ride height; undefined if the mechanism does not assemble there.
   */
  rangeProblems(suspension: Suspension, linkage: L, riseRateMm: number | undefined): Problem[];
  /** Steering input at a steer of -1 (front edge inboard) to +1. */
  inputAt(linkage: L, steer: number): number;
  /** The mechanism on the branch of ride height; undefined if a member does not reach. */
  pose<K extends Kind>(
    algebra: Algebra<K>,
    linkage: L,
    armRad: K['scalar'],
    input: K['scalar'],
  ): Posed<K> | undefined;
  rates<K extends Kind>(algebra: Algebra<K>, linkage: L, posed: Posed<K>): Rates<K>;
  /** `vehicleFromMember` of every member except chassis, wheel and damper. */
  members<K extends Kind>(
    algebra: Algebra<K>,
    linkage: L,
    posed: Posed<K>,
  ): Record<Carrier, K['frame']> & { upright: K['frame'] };
  solverRates(linkage: L, posed: Posed<NumberKind>, rates: Rates<NumberKind>): SolverRates;
  /** Rotation of the arm from ride height at a pose, rad. */
  armRad(linkage: L, members: Readonly<Record<Carrier, NumberKind['frame']>>): number;
}
