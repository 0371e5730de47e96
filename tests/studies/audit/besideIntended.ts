import type { SolvedPose } from '../../../src/mechanism/pose.ts';
import { loadModeller } from '../../../src/solids/modeller.ts';
import { BEYOND_EDGE_MM, BEYOND_FACE_MM, BEYOND_SHANK_MM } from '../../../src/solids/seatZones.ts';
import type { Solid } from '../../../src/solids/solid.ts';
import type { Intended } from '../../../src/studies/audit/intended.ts';
import type { Region, Round } from '../../../src/studies/audit/region.ts';
import { sharedBetween } from '../../../src/studies/audit/shared.ts';

/** Clamped faces are planes, and zones go on beside their edge; shanks are cylinders, and theirs do not. */
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
 * The volume that two solids share at a pose neither in intended contact nor as near to it as zones are known to reach, mm^3:
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
