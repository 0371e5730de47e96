import type { Rigid } from '../../math/rigid.ts';
import type { Point2 } from '../simplePolygon.ts';

/** A corner of a path: its place, and the bulge of the segment to the next corner. */
export interface PathCorner {
  at: Point2;
  /** Tangent of a quarter of the arc's angle, positive anticlockwise; 0 for a straight segment. The definition of DXF. */
  bulge: number;
}

/** A closed line of straight segments and true arcs, mm. The last corner joins the first. */
export type Loop =
  | { kind: 'circle'; centre: Point2; radiusMm: number }
  | { kind: 'path'; corners: readonly PathCorner[] };

/** A hole that a part of the corner needs in a plate. */
export interface PlateHole {
  at: Point2;
  /** What goes through it: `bolt of the bearing housing`. */
  use: string;
  /** Diameter of the bolt, mm. */
  boltMm: number;
  /** Diameter to cut, with the sentence that says where it comes from; without a diameter, why it is unknown. */
  cut: { diameterMm: number; from: string } | { diameterMm: undefined; why: string };
}

/** A line or point that is marked on a plate and not cut. */
export interface PlateMark {
  /** Two ends, or one point that is marked with a cross. */
  at: readonly [Point2] | readonly [Point2, Point2];
  label: string;
}

/** A fold. `from` and `to`: the middle of the bend on the flat plate, across its whole width. */
export interface PlateBend {
  from: Point2;
  to: Point2;
  /** Angle of the fold, degrees: positive if the part beyond is raised toward the side that is up. */
  angleDeg: number;
  /** Direction from the line into the part that is folded, unit vector on the flat plate. */
  beyond: Point2;
  /** Length of the flat plate along the bend that the fold takes up, mm; 0 for the sharp fold of the model. */
  allowanceMm: number;
  /** Length added to the folded part's place by the bend's radius, mm: see `bendShiftMm`. */
  shiftMm: number;
}

/**
 * A plate as it is cut: flat, in millimetres, viewed from the side that is up. Bent plates are developed. The outline is
 * that of the plate's middle plane.
 */
export interface FlatPlate {
  /** Unique in the corner: `upright.pad`. */
  id: string;
  name: string;
  thicknessMm: number;
  quantity: number;
  /** The face that is drawn upward, in words. */
  sideUp: string;
  outline: Loop;
  /** The origin of x and y, in words. */
  origin: string;
  /** Openings that the solid has. */
  openings: readonly { loop: Loop; use: string }[];
  holes: readonly PlateHole[];
  marks: readonly PlateMark[];
  bends: readonly PlateBend[];
  /** What the file or the solid does not say, and what to do at the bench. One sentence or more each. */
  notes: readonly string[];
  /**
   * Place of the flat part in the vehicle, left corner at ride height: x and y in the middle plane of the plate, z toward
   * the side that is up. In a right corner it is that of the mirrored left corner.
   */
  vehicleFromPlate: Rigid;
}

/** How bends are made: inside radius, mm, and place of the neutral axis as a fraction of the thickness from the inside. */
export interface BendRule {
  radiusMm: number;
  kFactor: number;
}
