import type { Corner } from '../../design/schema.ts';
import type { Seat } from '../solid.ts';
import { axialStack, entries } from '../wheelFrame.ts';
import { clampedFaces, depthAxis, shankIn } from './seatZones.ts';

/** A part clamped at the hub mount: depth of its inboard face, and its radius, mm. */
interface Clamped {
  solidId: string;
  inboard: number;
  radiusMm: number;
}

/** Parts clamped at the hub mount, outboard first: bearing housing, spacers, upright. */
function clampedAtHubMount(corner: Corner): Clamped[] {
  const stack = axialStack(corner);
  const [hub] = entries(corner, 'hub');
  const [upright] = entries(corner, 'upright');
  const clamped: Clamped[] = [];
  if (hub !== undefined)
    clamped.push({
      solidId: `${hub.id}.housing`,
      inboard: stack.housingFaceDepth,
      radiusMm: hub.mountFlangeDiameter / 2,
    });
  for (const spacer of entries(corner, 'spacer'))
    if (spacer.place === 'upright')
      clamped.push({
        solidId: spacer.id,
        inboard: stack.spacerFaces(spacer).inboard,
        radiusMm: spacer.outerDiameter / 2,
      });
  if (upright !== undefined)
    clamped.push({
      solidId: upright.id,
      inboard: stack.uprightFaceDepth - upright.plateThickness,
      radiusMm: upright.hubMount.diameter / 2,
    });
  return clamped;
}

/**
 * Zones where a bearing housing, or a spacer behind it, may touch the parts clamped inboard of it: the faces that meet, and
 * a housing's spigot in the bores that it reaches through.
 */
export function hubMountSeats(corner: Corner, solidId: string, chordMm: number): Seat[] {
  const clamped = clampedAtHubMount(corner);
  const own = clamped.findIndex((one) => one.solidId === solidId);
  const { inboard, radiusMm } = clamped[own];
  const axis = depthAxis(corner);
  const [hub] = entries(corner, 'hub');
  const spigot =
    own === 0 && hub !== undefined && hub.spigotLength > 0
      ? [
          shankIn(
            axis,
            [inboard - hub.spigotLength, inboard],
            hub.spigotDiameter,
            chordMm,
            'spigot in its bore',
          ),
        ]
      : [];
  return clamped.slice(own + 1).map((next, k): Seat => {
    const radius = Math.min(radiusMm, next.radiusMm);
    const faces =
      k === 0 ? [clampedFaces(axis, inboard, radius, chordMm, 'clamped faces of the hub mount')] : [];
    return { solidId: next.solidId, zones: [...faces, ...spigot] };
  });
}
