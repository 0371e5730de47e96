import type { Corner } from '../design/schema.ts';
import { axialSlab } from './hubFace.ts';
import type { Zone } from './solid.ts';
import { axialStack, entries } from './wheelFrame.ts';

/**
 * The bolted face between bearing housing, its spacers and the upright's pad: a slab about the wheel axis from the
 * outboard face of the housing's flange to the inboard face of the pad, or to the spigot's end where that stands out of
 * the pad.
 */
export function hubMountZone(corner: Corner): Zone {
  const hub = entries(corner, 'hub')[0];
  const upright = entries(corner, 'upright')[0];
  const stack = axialStack(corner);
  const outboard = stack.housingFaceDepth + (hub?.mountFlangeThickness ?? 0);
  const inboard = Math.min(
    stack.uprightFaceDepth - (upright?.plateThickness ?? 0),
    stack.housingFaceDepth - (hub?.spigotLength ?? 0),
  );
  const diameter = Math.max(upright?.hubMount.diameter ?? 0, hub?.mountFlangeDiameter ?? 0);
  return axialSlab(corner, inboard, outboard, diameter / 2);
}
