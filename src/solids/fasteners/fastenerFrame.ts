import { fromAxes, type Rigid } from '../../math/rigid.ts';
import { cross, type Vec3 } from '../../math/vec.ts';
import type { HolePlace } from './boltHoles.ts';
import type { FastenerEnd } from './fastenerStack.ts';

/**
 * Frame of one end of a fastener, in the wheel-axis frame: origin in the clamped face, z away from it along the bolt, x
 * outward from the wheel axis.
 */
export function endFrame(
  [x, z]: HolePlace,
  { faceDepth, away }: Pick<FastenerEnd, 'faceDepth' | 'away'>,
  hubFaceY: number,
): Rigid {
  const radius = Math.hypot(x, z);
  const outward: Vec3 = radius > 0 ? [x / radius, 0, z / radius] : [0, 0, 1];
  const axis: Vec3 = [0, away, 0];
  return fromAxes(outward, cross(axis, outward), axis, [x, hubFaceY + faceDepth, z]);
}
