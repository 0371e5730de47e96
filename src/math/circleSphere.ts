import type { Algebra, Kind, VecOf } from './algebra.ts';
import type { NumberKind } from './numbers.ts';
import { cross, dot, sub, type Vec3 } from './vec.ts';

/** A circle of `radius` about `centre`, in the plane perpendicular to the unit vector `axis`. */
export interface CircleOf<K extends Kind> {
  centre: VecOf<K>;
  axis: VecOf<K>;
  radius: number;
}
export type Circle = CircleOf<NumberKind>;

/** Intersection of a circle and a sphere. */
export interface CircleSphere<K extends Kind> {
  /** The intersection point on the requested branch; undefined if there is none. */
  point: VecOf<K> | undefined;
  /** From the circle's centre to the sphere's: the vector, its component along the axis, and the rest. */
  toSphere: VecOf<K>;
  along: K['scalar'];
  across: VecOf<K>;
  acrossSq: K['scalar'];
  radius: number;
  sphereRadius: number;
}

/**
 * The intersection point of a circle and a sphere, in closed form. There are two. `branch` +1 selects the one that
 * lies anticlockwise about the axis (right-hand rule) from the sphere's centre; -1 selects the other.
 */
export function meetCircleSphere<K extends Kind>(
  algebra: Algebra<K>,
  { centre, axis, radius }: CircleOf<K>,
  sphereCentre: VecOf<K>,
  sphereRadius: number,
  branch: number,
): CircleSphere<K> {
  const toSphere = algebra.sub(sphereCentre, centre);
  const along = algebra.dot(toSphere, axis);
  const across = algebra.subMul(toSphere, axis, along);
  const acrossSq = algebra.dot(across, across);
  const at = algebra.circleSphere(algebra.dot(toSphere, toSphere), acrossSq, radius, sphereRadius, branch);
  const point =
    at && algebra.addMul(algebra.addMul(centre, across, at.ahead), algebra.cross(axis, across), at.aside);
  return { point, toSphere, along, across, acrossSq, radius, sphereRadius };
}

/**
 * Cosine of an angle at the circle's centre, seen along the axis: between an intersection point and the sphere's
 * centre. Above +1 the sphere is too small to reach the circle. Below -1 the whole circle is inside the sphere. At
 * +-1 the two intersection points coincide. NaN if the sphere's centre lies on the circle's axis.
 */
export const meetingCosine = ({
  toSphere,
  acrossSq,
  radius,
  sphereRadius,
}: CircleSphere<NumberKind>): number =>
  (dot(toSphere, toSphere) + radius * radius - sphereRadius * sphereRadius) /
  (2 * radius * Math.sqrt(acrossSq));

/**
 * The branch of `meetCircleSphere` on which a point of the circle lies. 0 if the point is in line with both centres.
 */
export function branchOf(circle: Circle, sphereCentre: Vec3, point: Vec3): number {
  const toSphere = sub(sphereCentre, circle.centre);
  return Math.sign(dot(circle.axis, cross(toSphere, sub(point, circle.centre))));
}

/**
 * Rate of change of `meetingCosine`, given the rate of the sphere's centre less that of the circle's, and the rate of
 * the circle's axis. Both rates are per unit of the same parameter.
 */
export function cosineRate(meeting: CircleSphere<NumberKind>, centresRate: Vec3, axisRate: Vec3): number {
  const { toSphere, along, across, acrossSq, radius } = meeting;
  const reachRate = (dot(across, centresRate) - along * dot(across, axisRate)) / acrossSq;
  const cosine = meetingCosine(meeting);
  return dot(toSphere, centresRate) / (radius * Math.sqrt(acrossSq)) - cosine * reachRate;
}
