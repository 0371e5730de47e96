import type { Corner, Entry, Suspension } from '../design/schema.ts';
import type { Attachment, Zone } from './solid.ts';
import { entries } from './wheelFrame.ts';

/** The sphere about a damper's mount that holds its eye. */
export const damperEyeZone = (damper: Entry<'damper'>, centre: readonly [number, number, number]): Zone => ({
  shape: 'sphere',
  centre,
  radiusMm: Math.hypot(damper.eyeDiameter, damper.eyeWidth) / 2,
});

/** The attachment of the part that carries the damper's moving mount; none where the damper sits on another. */
export function damperArmAttachment(
  corner: Corner,
  carrier: NonNullable<Suspension['damper']>['on'],
): Attachment[] {
  const mounts = corner.suspension.damper;
  const damper = entries(corner, 'damper')[0];
  if (mounts === undefined || damper === undefined || mounts.on !== carrier) return [];
  return [{ name: 'damperArm', zone: damperEyeZone(damper, mounts.armMount) }];
}
