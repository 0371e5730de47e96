import type { Vec3 } from '../math/vec.ts';
import type { JointPlace } from './suspension.ts';

/** A length that the sheet of a new corner asks for beside those of wheel, hub, brake and travel. */
export interface LayoutQuestion {
  key: string;
  label: string;
  /** What to measure. */
  help: string;
  /** Group of the sheet. */
  group: 'Upright and arms' | 'Travel and lock';
  /** Paths of its fields in the file; empty if points follow from it. */
  paths: readonly string[];
}

/** Dimensions from which the points of a new corner follow, mm. */
export interface NewCornerSizes {
  tyreRadius: number;
  /** From the rim's centre plane to its mounting face, positive outboard. */
  wheelOffset: number;
  /** Thickness of the rotor's hat, between hub and wheel. */
  hatThickness: number;
  /** Bearing housing's mounting face behind the wheel's mounting face. */
  mountDepth: number;
  bump: number;
  droop: number;
  /** Answers to the layout's questions, or usual values. */
  own: Readonly<Record<string, number>>;
}

/** Points of a new corner, vehicle axes, mm, and the part dimensions on which they depend. */
export interface NewPoints {
  hardpoints: Readonly<Record<string, Vec3>> & { readonly wheelCentre: Vec3 };
  chassisMount: Vec3;
  armMount: Vec3;
  /** Length of the damper's body. */
  bodyLength: number;
}

/** The suspension on the sketch of a new corner: points of the vehicle, shown from behind. */
export interface SuspensionSketch {
  members: readonly (readonly [Vec3, Vec3])[];
  joints: readonly Vec3[];
  dimensions: readonly { key: string; from: Vec3; to: Vec3 }[];
}

export interface NewJoint {
  id: string;
  label: string;
  at: JointPlace;
  form: 'cup' | 'rodEnd';
  /** Direction of its bolt; upright if left out. */
  bolt?: Vec3;
}

export interface NewArm {
  id: string;
  label: string;
  /** Field `arm` of the part. */
  arm: string;
}

/** What the sheet of a new corner needs of a layout. */
export interface NewCornerOf {
  questions: readonly LayoutQuestion[];
  /** Values of the layout's questions, the missing ones completed. `round` rounds to what a person types. */
  usual(
    given: Readonly<Record<string, number | undefined>>,
    barrelRadius: number,
    round: (mm: number) => number,
  ): Record<string, number>;
  points(sizes: NewCornerSizes, round: (mm: number) => number): NewPoints;
  sketch(sizes: NewCornerSizes, points: NewPoints): SuspensionSketch;
  joints: readonly NewJoint[];
  arms: readonly NewArm[];
  damperOn: string;
  /** Fields of `suspension.steering`: the key of the question that each follows from, and defaults of the others. */
  steering: {
    asked: Readonly<Record<string, string>>;
    fixed: Readonly<Record<string, [number, number, number]>>;
  };
}
