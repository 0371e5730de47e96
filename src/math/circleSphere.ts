import { addScaled, cross, dot, lengthSq, sub, type Vec3 } from './vec.ts';

/** `radius` about `centre`, in the plane square to the unit vector `axis`. */
export interface Circle {
  centre: Vec3;
  axis: Vec3;
  radius: number;
}

/** Where a sphere meets a circle. */
export interface CircleSphere {
  /**
   * Cosine, at the circle's centre, of the angle between the meeting points and the sphere's centre seen along the
   * axis. Beyond +1 the sphere is too small to reach the circle, beyond -1 it is so large that it holds all of it;
   * at +-1 the two meeting points are one. NaN where the sphere's centre lies on the circle's axis.
   */
  cosine: number;
  /** The meeting point of the branch asked for; undefined where there is none. */
  point: Vec3 | undefined;
}

/**
 * The meeting point of a circle with a sphere, in closed form. Of the two, `branch` +1 is the one that a turn by the
 * right-hand rule about the axis reaches first from the side of the sphere's centre, -1 the other.
 */
export function meetCircleSphere(
  circle: Circle,
  sphereCentre: Vec3,
  sphereRadius: number,
  branch: number,
): CircleSphere {
  const { centre, axis, radius } = circle;
  const toSphere = sub(sphereCentre, centre);
  const across = addScaled(toSphere, axis, -dot(toSphere, axis));
  const reach = Math.sqrt(lengthSq(across));
  const cosine = (lengthSq(toSphere) + radius * radius - sphereRadius * sphereRadius) / (2 * radius * reach);
  if (!(Math.abs(cosine) < 1)) return { cosine, point: undefined };
  const sine = branch * Math.sqrt((1 - cosine) * (1 + cosine));
  const alongside = addScaled(centre, across, (radius * cosine) / reach);
  return { cosine, point: addScaled(alongside, cross(axis, across), (radius * sine) / reach) };
}

/** The branch of `meetCircleSphere` that a point of the circle lies on; 0 on neither, for a point in line. */
export function branchOf(circle: Circle, sphereCentre: Vec3, point: Vec3): number {
  const toSphere = sub(sphereCentre, circle.centre);
  return Math.sign(dot(circle.axis, cross(toSphere, sub(point, circle.centre))));
}

/**
 * Rate of `CircleSphere.cosine` while the sphere's centre, the circle's centre and its axis move at the rates given
 * (per unit of whatever drives them).
 */
export function cosineRate(
  circle: Circle,
  sphereCentre: Vec3,
  cosine: number,
  sphereCentreRate: Vec3,
  centreRate: Vec3,
  axisRate: Vec3,
): number {
  const toSphere = sub(sphereCentre, circle.centre);
  const rate = sub(sphereCentreRate, centreRate);
  const along = dot(toSphere, circle.axis);
  const across = addScaled(toSphere, circle.axis, -along);
  const reachSq = lengthSq(across);
  const reachRate = (dot(across, rate) - along * dot(across, axisRate)) / reachSq;
  return dot(toSphere, rate) / (circle.radius * Math.sqrt(reachSq)) - cosine * reachRate;
}
