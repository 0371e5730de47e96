import type { Suspension } from '../layouts/suspension.ts';
import { cos, sin } from '../math/sine.ts';
import type { Vec3 } from '../math/vec.ts';

/** Outboard unit vector along the spin axis at ride height: camber = asin(-s_z), toe-in = atan2(s_x, s_y). */
export function spinAxis(suspension: Suspension): Vec3 {
  const camber = (suspension.camberDeg * Math.PI) / 180;
  const toe = (suspension.toeDeg * Math.PI) / 180;
  return [cos(camber) * sin(toe), cos(camber) * cos(toe), -sin(camber)];
}
