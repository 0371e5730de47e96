import { cross, normalize, perpendicular, type Vec3 } from './vec.ts';

/** Screen axes for an eye direction with Z up: unit vectors to the right and up. */
export function screenAxes(eye: Vec3): { right: Vec3; up: Vec3 } {
  const flat = cross([0, 0, 1], eye);
  const right = Math.hypot(...flat) > 1e-9 ? normalize(flat) : perpendicular(eye);
  return { right, up: cross(eye, right) };
}
