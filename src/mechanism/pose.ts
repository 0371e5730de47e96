import type { Carrier } from '../design/schema.ts';
import type { Rigid } from '../math/rigid.ts';

/** `vehicleFromCarrier` of each carrier. Every carrier's frame is the vehicle's own at ride height, steer 0. */
export type Carriers = Readonly<Record<Carrier, Rigid>>;

export interface SolvedPose {
  kind: 'solved';
  travelMm: number;
  steer: number;
  carriers: Carriers;
  /** Largest error of any fixed length of the mechanism and of the travel asked for, mm. */
  residualMm: number;
  iterations: number;
}

export interface UnreachablePose {
  kind: 'unreachable';
  travelMm: number;
  steer: number;
  /** One sentence a builder understands: which member runs out of length, or which limit was met. */
  reason: string;
  /** Where the way to it ends: the nearest travel at this steer, or, where steer is barred, the most steer at the nearest
   * travel that is reached straight ahead. */
  nearest: { travelMm: number; steer: number };
}

export type PoseResult = SolvedPose | UnreachablePose;

/** Wheel alignment at a pose, ISO 8855 senses (see DEVELOPERS.md), of the left corner. */
export interface Alignment {
  camberDeg: number;
  /** Toe-in positive. */
  toeDeg: number;
  /** Road-wheel steer angle: positive = front edge toward the vehicle's left; the change of heading from ride height. */
  roadWheelAngleDeg: number;
  casterDeg: number;
  kingpinInclinationDeg: number;
  scrubRadiusMm: number;
  mechanicalTrailMm: number;
  /** Y of the contact centre. */
  halfTrackMm: number;
  wheelCentreMm: readonly [number, number, number];
  /** Between the damper's mounts; undefined without a damper. */
  damperLengthMm: number | undefined;
  /** Turn of the lower arm about its pivot line, front to rear, right-hand rule. */
  lowerArmAngleDeg: number;
}
