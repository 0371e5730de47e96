import type { Corner as DesignCorner } from '../../design/schema.ts';
import { invert } from '../../math/rigid.ts';
import type { Modeller } from '../../solids/modeller.ts';
import type { Solid } from '../../solids/solid.ts';
import { sweptProfile } from '../../solids/spinEnvelope.ts';
import { vehicleFromWheelAxis } from '../../solids/wheelFrame.ts';
import { type Corner, convexPieces } from './convexPieces.ts';
import type { SpunPiece } from './spunBody.ts';

/**
 * The profile that a solid sweeps about the wheel axis in a full turn, as convex pieces in the wheel-axis frame, enlarged by
 * `growthMm` and by all errors, so that they contain the true part. `errorMm`: by how much they exceed it at most.
 */
export function spunPieces(
  solid: Pick<Solid, 'mesh' | 'chordErrorMm'>,
  suspension: DesignCorner['suspension'],
  modeller: Modeller,
  { toleranceMm, growthMm }: { toleranceMm: number; growthMm: number },
): { pieces: SpunPiece[]; errorMm: number } {
  const wheelFromVehicle = invert(vehicleFromWheelAxis(suspension));
  const { profile, errorMm } = sweptProfile(solid.mesh, wheelFromVehicle, modeller, toleranceMm);
  const outlines = profile.toPolygons();
  const corners = outlines.flat() as Corner[];
  const outside = errorMm + solid.chordErrorMm;
  return {
    pieces: convexPieces(corners, modeller.triangulate(outlines)).map((outline) => ({
      outline,
      growthMm: growthMm + outside,
    })),
    errorMm: 2 * outside,
  };
}
