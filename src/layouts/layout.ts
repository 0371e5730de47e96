import type { z } from 'zod';
import type { Vec3 } from '../math/vec.ts';
import type { Quantities } from '../units/quantities.ts';
import type { Kinematics } from './kinematics.ts';
import type { NewCornerOf } from './newCorner.ts';
import type { Carrier, Hardpoints, JointPlace, Point } from './suspension.ts';

export interface LayoutPoint {
  /** The line of help beside the field. */
  description: string;
  /** The member that the point moves with in the view. */
  carrier: Carrier;
}

export interface LayoutJoint {
  /** "lower joint". */
  name: string;
  housing: Carrier;
  bolt: Carrier;
  /** Far end of the member that carries the housing; a rod end's shank points there. */
  memberEnd(points: Hardpoints): Vec3;
}

/** An arm that turns about the line through its two pivots. */
export interface LayoutArm {
  front: JointPlace;
  rear: JointPlace;
  /** Its outer joint. */
  joint: JointPlace;
  carrier: Carrier;
  /** Dimensions to start from, mm: common practice, no source. */
  usual: { tubeDiameter: number; pivotDiameter: number; pivotLength: number };
}

/** A point, or a line through two points, that two members turn about at every pose. */
export interface LayoutPivot {
  between: readonly [Carrier, Carrier];
  at: string;
  to?: string;
}

/** Distance between two points, each on a member, that is the same at every pose. The same point twice: a joint. */
export interface KeptDistance {
  a: string;
  onA: Carrier;
  b: string;
  onB: Carrier;
}

/** The steering input: what moves the steering, and how far. */
export interface LayoutSteering {
  /** "rack", in "rack +60 mm". */
  noun: string;
  /** Quantity of the input: mm or degrees. */
  quantity: 'length' | 'angle';
  /** Key of the input in JSON files. */
  key: string;
  /** Names of the fields of the two locks. */
  outboard: string;
  inboard: string;
  description: string;
  /** The fields of `suspension.steering`. */
  fields(quantity: Quantities): Readonly<Record<string, z.ZodType<number | Point, unknown>>>;
}

/** Sentences for a builder on why the range of the suspension ends. */
export interface EndWords {
  /** For each closure of the kinematics: its two members in line, stretched out or folded. */
  closures: readonly { stretched: string; folded: string }[];
  /** Travel turns back, after the steering reached its position and before. */
  overCentre: string;
  steeredTooFar: string;
}

/** A kind of suspension: everything that is particular to it. */
export interface Layout {
  /** Value of `suspension.layout`. */
  name: string;
  description: string;
  /** The members, in the order of the result files, each with its name in words: "the lower arm". */
  carriers: Readonly<Record<Carrier, string>>;
  /** Groups of the parts list: title and members. */
  partGroups: readonly (readonly [title: string, carriers: readonly Carrier[]])[];
  points: Readonly<Record<string, LayoutPoint>>;
  joints: Readonly<Record<JointPlace, LayoutJoint>>;
  /** Parts of kind `controlArm`, by their field `arm`. */
  arms: Readonly<Record<string, LayoutArm>>;
  /** The arm that shields the caliper from below, by the field `arm`; undefined if the layout has none. */
  shieldingArm: string | undefined;
  /** Ends of the part of kind `tieRod`; undefined if the layout has none. */
  tieRod: { inner: JointPlace; outer: JointPlace; carrier: Carrier } | undefined;
  /** Joints of the part of kind `upright`; undefined if the layout has none. */
  upright: { lower: JointPlace; upper: JointPlace; steering: JointPlace } | undefined;
  /** Points of the steering axis, on the upright. */
  kingpin: { lower: string; upper: string };
  pivots: readonly LayoutPivot[];
  kept: readonly KeptDistance[];
  /** Members that may carry the damper's other mount. */
  damperOn: readonly Carrier[];
  steering: LayoutSteering;
  /** Name of the arm's angle in the report: "Lower arm about its pivot line". */
  armAngleName: string;
  /** Assumption on the motion that the tilt of joints depends on, as a sentence of the report; empty if there is none. */
  tiltNote: string;
  ends: EndWords;
  /** Points that make no mechanism; `at` names the point. */
  pointProblems(points: Hardpoints): { at: string; message: string }[];
  kinematics: Kinematics;
  /** A point of the chassis beside the suspension, where a new shape starts. */
  chassisPoint(points: Hardpoints): Vec3;
  /** Mounts of a new damper. */
  startingDamper(points: Hardpoints): { chassisMount: Vec3; armMount: Vec3; on: Carrier };
  /** Loads what the sheet of a new corner needs; undefined if the sheet does not offer the layout. */
  newCorner: (() => Promise<NewCornerOf>) | undefined;
}
