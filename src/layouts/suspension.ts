/**
 * Name of a rigid member of the corner. Every layout has `chassis`, `upright`, `wheel` (on the upright), `damperBody`
 * and `damperRod`, and names its others itself.
 */
export type Carrier = string;
/** Name of a point of the suspension at which a joint can be. */
export type JointPlace = string;
export type Point = [number, number, number];
/** The points of a suspension at ride height, vehicle axes, mm: those of its layout, and the wheel centre. */
export type Hardpoints = Record<string, Point> & { wheelCentre: Point };

/** A suspension as read: lengths in mm, angles in degrees, defaults filled in. */
export interface Suspension {
  /** Name of its layout. */
  layout: string;
  hardpoints: Hardpoints;
  damper?: { chassisMount: Point; armMount: Point; on: Carrier } | undefined;
  camberDeg: number;
  toeDeg: number;
  hubFace?: number | undefined;
  hubFollowsWheel?: boolean | undefined;
  travel: { bump: number; droop: number };
  /** Fields of the layout. */
  steering: Record<string, number | Point>;
  assumed?: string[] | undefined;
  fixed?: boolean | string[] | undefined;
}
