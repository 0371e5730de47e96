import type { Corner, Entry } from '../design/schema.ts';
import { applyDirection, applyPoint } from '../math/rigid.ts';
import { caliperMountZone } from './caliperMount.ts';
import { damperArmAttachment } from './damperMounts.ts';
import { armToUprightZone, jointEntry } from './jointPlace.ts';
import type { Attachment, Zone } from './solid.ts';
import { axialStack, entries, vehicleFromWheelAxis } from './wheelFrame.ts';

/** Beyond the bolted faces: washers and the edge of the metal. Common practice, no source. */
const MARGIN_MM = 1;

/** Where the upright is joined and bolted. At the tie rod only the joint's bolt belongs, so that the zone is its size. */
export function uprightAttachments(corner: Corner, entry: Entry<'upright'>): Attachment[] {
  const { tieRodOuter } = corner.suspension.hardpoints;
  const tieRodBoltMm = (jointEntry(corner, 'tieRodOuter')?.boltDiameter ?? 0) / 2;
  return [
    { name: 'lowerJoint', zone: armToUprightZone(corner, 'lowerJoint') },
    { name: 'upperJoint', zone: armToUprightZone(corner, 'upperJoint') },
    {
      name: 'tieRodOuter',
      zone: { shape: 'sphere', centre: tieRodOuter, radiusMm: Math.max(1, tieRodBoltMm) },
    },
    { name: 'hubMount', zone: hubMountZone(corner, entry) },
    ...entries(corner, 'caliper').map((caliper) => ({
      name: 'caliperMount',
      zone: caliperMountZone(corner, caliper),
    })),
    ...damperArmAttachment(corner, 'upright'),
  ];
}

/**
 * The bolted face between the pad and the bearing housing: a slab about the wheel axis from the outboard face of the
 * housing's flange to the inboard face of the pad, or to the spigot's end where that stands out of the pad.
 */
function hubMountZone(corner: Corner, entry: Entry<'upright'>): Zone {
  const hub = entries(corner, 'hub')[0];
  const stack = axialStack(corner);
  const outboard = stack.housingFaceDepth + (hub?.mountFlangeThickness ?? 0);
  const inboard = Math.min(
    stack.uprightFaceDepth - entry.plateThickness,
    stack.housingFaceDepth - (hub?.spigotLength ?? 0),
  );
  const vehicleFromWheel = vehicleFromWheelAxis(corner.suspension);
  return {
    shape: 'slab',
    centre: applyPoint(vehicleFromWheel, [0, stack.hubFaceY + (outboard + inboard) / 2, 0]),
    axis: applyDirection(vehicleFromWheel, [0, 1, 0]),
    halfThicknessMm: (outboard - inboard) / 2 + MARGIN_MM,
    radiusMm: Math.max(entry.hubMount.diameter, hub?.mountFlangeDiameter ?? 0) / 2 + MARGIN_MM,
  };
}
