import type { Entry } from '../../design/schema.ts';
import type { BuildContext, Builder } from '../../solids/build.ts';
import { withBoltsErrorMm } from '../../solids/fasteners/boltPattern.ts';
import { endFrame } from '../../solids/fasteners/fastenerFrame.ts';
import { seatsOf } from '../../solids/fasteners/fastenerSeats.ts';
import { type FastenerStack, fastenerStack } from '../../solids/fasteners/fastenerStack.ts';
import { boltsCarrier, roundFasteners, seatedPieces } from '../../solids/fasteners/roundFasteners.ts';
import { type Manifold, matrix16, rod, takeMesh } from '../../solids/modeller.ts';
import { placed } from '../../solids/place.ts';
import { axialStack, vehicleFromWheelAxis } from '../../solids/wheelFrame.ts';

/**
 * Fitted bolts, each with its head, washers and nut: one solid of separate closed pieces, one for each bolt. Heads and nuts
 * are cylinders through their corners, since the angle of each hexagon is unknown; they are shown as hexagons.
 */
export const buildBolts: Builder<Entry<'bolts'>> = (bolts, context) => {
  const stack = fastenerStack(context.corner, bolts);
  const pieces = seatedPieces(stack);
  const { solid, errorMm } = roundFasteners(stack.places, stack.ends[0], pieces, context);
  const vehicleFromWheel = vehicleFromWheelAxis(context.corner.suspension);
  const made = placed(solid, vehicleFromWheel, errorMm);
  return [
    {
      id: bolts.id,
      kind: 'bolts',
      carrier: boltsCarrier(bolts),
      ...made,
      shown: takeMesh(hexFasteners(stack, context), vehicleFromWheel),
      shownErrorMm: withBoltsErrorMm(made.chordErrorMm, context),
      attachments: [],
      seats: seatsOf(stack, bolts, context),
    },
  ];
};

/** The displayed fasteners, with hexagonal heads and nuts. */
function hexFasteners(stack: FastenerStack, { corner, modeller, chordToleranceMm }: BuildContext): Manifold {
  const { hubFaceY } = axialStack(corner);
  const { diameterMm, washer, reachMm, places, ends } = stack;
  const bodies = ends.flatMap((end, k) => {
    const { washerMm, piece } = end;
    const at = (fromMm: number, toMm: number, radius: number) =>
      rod(modeller, [0, 0, fromMm], [0, 0, toMm], radius, chordToleranceMm);
    const top = washerMm + piece.heightMm;
    // Pieces overlap, so that their union is one piece.
    const turned = piece.hex
      ? modeller.Manifold.cylinder(top - washerMm / 2, piece.roundMm / 2, piece.roundMm / 2, 6).translate([
          0,
          0,
          washerMm / 2,
        ])
      : at(washerMm / 2, top, piece.roundMm / 2);
    const pieces = [turned];
    if (washer !== undefined) pieces.push(at(0, washerMm, washer.acrossMm / 2));
    if (k === 0 && reachMm !== undefined)
      pieces.push(at(-reachMm, washerMm + piece.heightMm / 2, diameterMm / 2));
    const body = modeller.Manifold.union(pieces);
    return places.map((place) => body.transform(matrix16(endFrame(place, end, hubFaceY))));
  });
  return modeller.Manifold.union(bodies);
}
