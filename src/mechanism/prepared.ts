import type { Linkage } from '../layouts/kinematics.ts';
import type { Carrier, Hardpoints, Suspension } from '../layouts/suspension.ts';
import type { Vec3 } from '../math/vec.ts';

/** A distance between points of two members that is the same at every pose. */
export interface HeldDistance {
  a: Vec3;
  onA: Carrier;
  b: Vec3;
  onB: Carrier;
  mm: number;
}

/** A suspension prepared for posing: plain data, in vehicle axes at ride height, mm. */
export interface Mechanism {
  /** Name of the layout. */
  layout: string;
  linkage: Linkage;
  /** Every member, in the order of the result files. */
  carriers: readonly Carrier[];
  hardpoints: Hardpoints;
  damper: Suspension['damper'];
  /** The mount to which the damper's body is fixed. */
  damperBodyEnd: 'chassis' | 'arm';
  /** Unit vector along the wheel's spin axis, outboard. */
  spinAxis: Vec3;
  /** Sign of the arm's rotation that lifts the wheel. */
  bumpSense: number;
  held: readonly HeldDistance[];
}
