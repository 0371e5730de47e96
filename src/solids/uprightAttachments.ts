import type { Corner } from '../design/schema.ts';
import { caliperMountZone } from './caliperMount.ts';
import { damperArmAttachment } from './damperMounts.ts';
import { hubMountZone } from './hubMount.ts';
import { armToUprightZone, jointEntry } from './jointPlace.ts';
import type { Attachment } from './solid.ts';
import { entries } from './wheelFrame.ts';

/** Where the upright is joined and bolted. At the tie rod only the joint's bolt belongs, so that the zone is its size. */
export function uprightAttachments(corner: Corner): Attachment[] {
  const { tieRodOuter } = corner.suspension.hardpoints;
  const tieRodBoltMm = (jointEntry(corner, 'tieRodOuter')?.boltDiameter ?? 0) / 2;
  return [
    { name: 'lowerJoint', zone: armToUprightZone(corner, 'lowerJoint') },
    { name: 'upperJoint', zone: armToUprightZone(corner, 'upperJoint') },
    {
      name: 'tieRodOuter',
      zone: { shape: 'sphere', centre: tieRodOuter, radiusMm: Math.max(1, tieRodBoltMm) },
    },
    { name: 'hubMount', zone: hubMountZone(corner) },
    ...entries(corner, 'caliper').map((caliper) => ({
      name: 'caliperMount',
      zone: caliperMountZone(corner, caliper),
    })),
    ...damperArmAttachment(corner, 'upright'),
  ];
}
