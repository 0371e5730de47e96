import type { Closure, Kinematics, Posed, Rates, SolverRates } from '../layouts/kinematics.ts';
import { layoutOf } from '../layouts/layoutOf.ts';
import { NUMBERS, type NumberKind } from '../math/numbers.ts';
import type { Mechanism } from './prepared.ts';

/** The assembled mechanism at an angle of its arm and a steering input. */
export class Assembly {
  readonly armRad: number;
  /** Steering input: mm of a rack, or degrees. */
  readonly input: number;
  /** Rise of the wheel centre from ride height. */
  readonly riseMm: number;
  /** Rise per radian of the arm, with the steering input fixed. */
  readonly riseRateMm: number;
  readonly posed: Posed<NumberKind>;
  private readonly kinematics: Kinematics;
  private readonly linkage: Mechanism['linkage'];
  private readonly rates: Rates<NumberKind>;
  private solverRates: SolverRates | undefined;

  constructor(
    kinematics: Kinematics,
    linkage: Mechanism['linkage'],
    armRad: number,
    input: number,
    posed: Posed<NumberKind>,
  ) {
    this.kinematics = kinematics;
    this.linkage = linkage;
    this.armRad = armRad;
    this.input = input;
    this.posed = posed;
    this.rates = kinematics.rates(NUMBERS, linkage, posed);
    this.riseMm = posed.rise;
    this.riseRateMm = this.rates.rise;
  }

  /** Rise per unit of the steering input, with the arm fixed. */
  get riseInputRate(): number {
    return this.solved.riseInputRate;
  }

  get closures(): readonly Closure[] {
    return this.solved.closures;
  }

  /** Computed once they are needed: most assemblies are samples of a root search. */
  private get solved(): SolverRates {
    this.solverRates ??= this.kinematics.solverRates(this.linkage, this.posed, this.rates);
    return this.solverRates;
  }
}

/** Assembles the mechanism on the branch of ride height; undefined if a member does not reach. */
export function assemble(
  mechanism: Pick<Mechanism, 'layout' | 'linkage'>,
  armRad: number,
  input: number,
): Assembly | undefined {
  const { linkage } = mechanism;
  const { kinematics } = layoutOf(mechanism);
  const posed = kinematics.pose<NumberKind>(NUMBERS, linkage, armRad, input);
  return posed && new Assembly(kinematics, linkage, armRad, input, posed);
}

/** Steering input at a steer of -1 (front edge inboard) to +1. */
export const inputAt = (mechanism: Pick<Mechanism, 'layout' | 'linkage'>, steer: number): number =>
  layoutOf(mechanism).kinematics.inputAt(mechanism.linkage, steer);
