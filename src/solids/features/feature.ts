import type { Vec3 } from '../../math/vec.ts';

/** Lines to draw a feature by: x y z of the points of each. */
export type Outline = readonly Float64Array[];

/** A straight edge where two faces fold. */
export interface EdgeFeature {
  kind: 'edge';
  from: Vec3;
  to: Vec3;
  /** How far its true ends may be from these, mm. */
  errorMm: number;
  /** How far its true direction may be from this one, rad. */
  tiltErrorRad: number;
  outline: Outline;
}

/** A round edge, whole or an arc of one. */
export interface RingFeature {
  kind: 'ring';
  centre: Vec3;
  /** Unit vector square to its plane. */
  axis: Vec3;
  radiusMm: number;
  /** hole: the metal is outside of it; round: inside. */
  form: 'hole' | 'round';
  /** Less than a full turn for an arc. */
  spanRad: number;
  /** Of the centre. */
  errorMm: number;
  radiusErrorMm: number;
  tiltErrorRad: number;
  outline: Outline;
}

/** A flat face. */
export interface FlatFeature {
  kind: 'flat';
  /** Unit vector out of the metal. */
  normal: Vec3;
  areaMm2: number;
  /** Numbers of its triangles in the mesh. */
  triangles: Uint32Array;
  errorMm: number;
  tiltErrorRad: number;
  outline: Outline;
}

/** The side of a round bar, or of a bore. */
export interface CylinderFeature {
  kind: 'cylinder';
  /** A point of its axis, midway along it. */
  centre: Vec3;
  axis: Vec3;
  radiusMm: number;
  form: 'hole' | 'round';
  areaMm2: number;
  triangles: Uint32Array;
  errorMm: number;
  radiusErrorMm: number;
  tiltErrorRad: number;
  outline: Outline;
}

/**
 * What a person measures from on a part, in the frame of its mesh, mm. Errors are bounds of how far the feature of the
 * true part may be from the one given.
 */
export type Feature = EdgeFeature | RingFeature | FlatFeature | CylinderFeature;
