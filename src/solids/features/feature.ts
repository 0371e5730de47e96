import type { Vec3 } from '../../math/vec.ts';

/** Lines that draw a feature: x y z of the points of each. */
export type Outline = readonly Float64Array[];

/** A straight edge where two faces fold. */
export interface EdgeFeature {
  kind: 'edge';
  from: Vec3;
  to: Vec3;
  /** Bound on the distance of the true ends from these, mm. */
  errorMm: number;
  /** Bound on the angle of the true direction to this one, rad. */
  tiltErrorRad: number;
  outline: Outline;
}

/** A round edge: a full circle or an arc. */
export interface RingFeature {
  kind: 'ring';
  centre: Vec3;
  /** Unit vector normal to its plane. */
  axis: Vec3;
  radiusMm: number;
  /** hole: the metal is outside the circle; round: inside. */
  form: 'hole' | 'round';
  /** Less than a full turn for an arc. */
  spanRad: number;
  /** Error of the centre, mm. */
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
  /** Indices of its triangles in the mesh. */
  triangles: Uint32Array;
  errorMm: number;
  tiltErrorRad: number;
  outline: Outline;
}

/** The side of a round bar, or of a bore. */
export interface CylinderFeature {
  kind: 'cylinder';
  /** The point midway along its axis. */
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
 * A feature of a part to measure from, in the frame of its mesh, mm. Errors are bounds on the distance between it and the
 * feature of the true part.
 */
export type Feature = EdgeFeature | RingFeature | FlatFeature | CylinderFeature;
