import { fromAxes, type Rigid } from '../math/rigid.ts';
import {
  addScaled,
  cross,
  dot,
  lengthSq,
  midpoint,
  normalize,
  perpendicular,
  scale,
  sub,
  type Vec3,
} from '../math/vec.ts';
import type { WheelAxis } from './wheelFrame.ts';

/** Sine of the least angle (20°) between gap and wheel axis at which the two define a plane. */
const ALONG_AXIS_SINE = 0.34;

/** Default eye direction for a left corner; the side of the gap that faces it is cut away. */
const FIRST_EYE: Vec3 = [-0.82, -0.42, 0.38];

/**
 * Frame of the plane through a gap: x along the gap from a to b, z the normal. The plane contains the gap and the direction
 * of the wheel axis, so that rim, rotor and hub show their profile. If the gap is along the axis, the plane contains the
 * direction from the axis to the gap instead, so that it goes through the axis. If a and b are one point, it contains both
 * directions. All in vehicle axes of the left corner.
 */
export function frameOfGap(a: Vec3, b: Vec3, axis: WheelAxis): Rigid {
  const middle = midpoint(a, b);
  const { direction } = axis;
  const fromAxis = sub(middle, axis.point);
  const radial = addScaled(fromAxis, direction, -dot(fromAxis, direction));
  const out = lengthSq(radial) > 1e-12 ? normalize(radial) : perpendicular(direction);
  const gap = sub(b, a);
  const x = lengthSq(gap) > 1e-12 ? normalize(gap) : out;
  const square = (v: Vec3) => addScaled(v, x, -dot(v, x));
  const other = square(direction);
  const held = lengthSq(other) > ALONG_AXIS_SINE ** 2 ? other : square(out);
  const y = lengthSq(held) > 1e-12 ? normalize(held) : perpendicular(x);
  const z = cross(x, y);
  return dot(z, FIRST_EYE) >= 0 ? fromAxes(x, y, z, middle) : fromAxes(x, scale(y, -1), scale(z, -1), middle);
}
