import type { Vec3 } from '../../math/vec.ts';
import type { Point2 } from '../simplePolygon.ts';
import type { PlateMark } from './flatPlate.ts';
import type { LegWallInput } from './legWall.ts';

/** The axis of a boss from its far end to its near end, or its middle if it is nearly end-on. */
export function bossLine(
  boss: LegWallInput['boss'],
  radiusMm: number,
  onPlate: (at: Vec3) => Point2,
  label: string,
): PlateMark {
  const [near, far] = [onPlate(boss.near), onPlate(boss.far)];
  const isEndOn = Math.hypot(far[0] - near[0], far[1] - near[1]) < radiusMm;
  return { at: isEndOn ? [onPlate(boss.middle)] : [far, near], label };
}
