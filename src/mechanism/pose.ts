import type { Carrier } from '../layouts/suspension.ts';
import type { Rigid } from '../math/rigid.ts';

/** `vehicleFromCarrier` of each carrier. At ride height and steer 0, every carrier's frame is the vehicle's. */
export type Carriers = Readonly<Record<Carrier, Rigid>>;

export interface SolvedPose {
  kind: 'solved';
  travelMm: number;
  steer: number;
  carriers: Carriers;
  /** Largest error of any fixed length of the mechanism and of the requested travel, mm. */
  residualMm: number;
  iterations: number;
}

export interface UnreachablePose {
  kind: 'unreachable';
  travelMm: number;
  steer: number;
  /** One sentence for a builder: which member does not reach, or which limit was met. */
  reason: string;
  /**
   * The nearest reachable pose: the nearest travel at this steer. If this steer is not reached at all, the greatest
   * steer at the nearest travel that is reached straight ahead.
   */
  nearest: { travelMm: number; steer: number };
}

export type PoseResult = SolvedPose | UnreachablePose;

/** Wheel alignment of the left corner at a pose, with ISO 8855 signs (see DEVELOPERS.md). */
export interface Alignment {
  camberDeg: number;
  /** Toe-in positive. */
  toeDeg: number;
  /**
   * Road-wheel steer angle, as the change of heading from ride height: positive = front edge toward the vehicle's
   * left.
   */
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
  /** Rotation of the layout's arm about its pivot line (`Layout.armAngleName`), front to rear, right-hand rule. */
  armAngleDeg: number;
}
