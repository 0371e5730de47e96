import type { Corner } from '../design/schema.ts';
import { applyDirection, applyPoint } from '../math/rigid.ts';
import type { Attachment, Zone } from './solid.ts';
import { axialStack, entries, vehicleFromWheelAxis } from './wheelFrame.ts';

/** Beyond the clamped faces: the edge of the metal. Common practice, no source. */
const MARGIN_MM = 1;

/** A round disc about the wheel axis between two depths, in the vehicle. */
export function axialSlab(corner: Corner, fromDepthMm: number, toDepthMm: number, radiusMm: number): Zone {
  const vehicleFromWheel = vehicleFromWheelAxis(corner.suspension);
  const { hubFaceY } = axialStack(corner);
  return {
    shape: 'slab',
    centre: applyPoint(vehicleFromWheel, [0, hubFaceY + (fromDepthMm + toDepthMm) / 2, 0]),
    axis: applyDirection(vehicleFromWheel, [0, 1, 0]),
    halfThicknessMm: Math.abs(toDepthMm - fromDepthMm) / 2 + MARGIN_MM,
    radiusMm: radiusMm + MARGIN_MM,
  };
}

/**
 * Where the parts on the studs are clamped together: from the back of the hub's flange to the end of the studs, or to
 * the outboard face of the wheel's pad where that is further, within the radius of the part.
 */
export function hubFaceAttachment(corner: Corner, radiusMm: number): Attachment {
  const hub = entries(corner, 'hub')[0];
  const pad = entries(corner, 'wheel')[0]?.padThickness ?? 0;
  const inboard = -(hub?.flangeThickness ?? 0);
  const outboard = Math.max(hub?.studLength ?? 0, axialStack(corner).wheelFaceDepth + pad);
  return { name: 'hubFace', zone: axialSlab(corner, inboard, outboard, radiusMm) };
}
