import type { SolvedPose } from '../../../src/mechanism/pose.ts';
import { BEYOND_EDGE_MM, BEYOND_FACE_MM, BEYOND_SHANK_MM } from '../../../src/solids/fasteners/seatZones.ts';
import { loadModeller } from '../../../src/solids/modeller.ts';
import type { Solid } from '../../../src/solids/solid.ts';
import type { Intended } from '../../../src/studies/audit/intendedContact.ts';
import type { Region, Round } from '../../../src/studies/audit/region.ts';
import { sharedBetween } from '../../../src/studies/audit/shared.ts';

/**
 * Whether a region is a clamped face, beside whose edge zones may extend. They do not extend along shanks, which are
 * cylinders.
 */
function widenedRound(round: Round): Round {
  const { halfLengthMm, radiusMm, innerRadiusMm = 0 } = round;
  const isFace = halfLengthMm === 0 && innerRadiusMm === 0;
  return {
    ...round,
    halfLengthMm: halfLengthMm + BEYOND_FACE_MM,
    radiusMm: radiusMm + (isFace ? BEYOND_EDGE_MM : BEYOND_SHANK_MM),
    innerRadiusMm: Math.max(0, innerRadiusMm - BEYOND_SHANK_MM),
  };
}

function widened(region: Region): Region {
  switch (region.shape) {
    case 'round':
      return { shape: 'round', ...widenedRound(region) };
    case 'hull':
      return { shape: 'hull', rounds: region.rounds.map(widenedRound) };
    default:
      return region;
  }
}

/**
 * The volume that two solids share at a pose outside intended contact and outside the known reach of zones, mm^3:
 * half a millimetre beyond clamped faces and shanks, and along clamped faces past their edge.
 */
export async function sharedBesideMm3(
  solids: readonly [Solid, Solid],
  intended: readonly Intended[],
  pose: Pick<SolvedPose, 'carriers'>,
): Promise<number> {
  const wide = intended.map((one) => ({ ...one, region: widened(one.region) }));
  return sharedBetween(await loadModeller(), solids, wide, [pose])[0].unexplainedMm3;
}
