import type { Entry } from '../design/schema.ts';
import type { HolePlace } from './boltHoles.ts';
import { withBoltsErrorMm } from './boltPattern.ts';
import type { BuildContext, Builder } from './build.ts';
import { endFrame } from './fastenerFrame.ts';
import { seatsOf } from './fastenerSeats.ts';
import { type FastenerEnd, type FastenerStack, fastenerStack } from './fastenerStack.ts';
import { chordErrorMm, type Manifold, matrix16, rod, segmentsFor, takeMesh } from './modeller.ts';
import { placed } from './place.ts';
import { axialStack, vehicleFromWheelAxis } from './wheelFrame.ts';

/** A round piece of a fastener along its axis: from and to from a clamped face, positive away from it. */
export interface RoundPiece {
  fromMm: number;
  toMm: number;
  radiusMm: number;
}

/**
 * Bolts as they are fitted, each with its head, washers and nut: one solid of as many closed pieces. Heads and nuts are
 * the circles through their corners, since nobody knows how each comes to stand; they are shown as hexagons.
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
      shown: takeMesh(hexFasteners(stack, context), vehicleFromWheel).mesh,
      shownErrorMm: withBoltsErrorMm(made.chordErrorMm, context),
      attachments: [],
      seats: seatsOf(stack, bolts, context),
    },
  ];
};

/** Bolts ride with what they hold. */
export const boltsCarrier = ({ joins }: Pick<Entry<'bolts'>, 'joins'>): 'wheel' | 'upright' =>
  joins === 'wheel' || joins === 'rotor' ? 'wheel' : 'upright';

/** The pieces of one fastener as it is fitted, from the face under its first end, end to end along its axis. */
export function seatedPieces({
  ends,
  diameterMm,
  washer,
  reachMm,
  outboard,
  inboard,
}: FastenerStack): RoundPiece[] {
  const [first, second] = ends;
  const shank = diameterMm / 2;
  const bearing = (end: FastenerEnd, toMm: (away: number) => number): RoundPiece[] => {
    const { washerMm, piece } = end;
    const span = (from: number, to: number, radiusMm: number) => {
      const [a, b] = [toMm(from), toMm(to)];
      return { fromMm: Math.min(a, b), toMm: Math.max(a, b), radiusMm };
    };
    return [
      ...(washer === undefined ? [] : [span(0, washerMm, washer.acrossMm / 2)]),
      span(washerMm, washerMm + piece.heightMm, piece.roundMm / 2),
    ];
  };
  const pieces = bearing(first, (away) => away);
  if (reachMm === undefined) return pieces;
  const grip = outboard - inboard;
  if (second !== undefined) pieces.push(...bearing(second, (away) => -grip - away));
  const tip = -reachMm;
  const far = Math.min(...pieces.map(({ fromMm }) => fromMm), 0);
  // Between washers or heads, and what stands out of the far end.
  const near = second === undefined ? tip : -grip;
  pieces.push({ fromMm: near, toMm: 0, radiusMm: shank });
  if (tip < far && second !== undefined) pieces.push({ fromMm: tip, toMm: far, radiusMm: shank });
  return pieces.toSorted((a, b) => a.fromMm - b.fromMm);
}

/** Bodies of revolution about the axis of each hole, of pieces that stand end to end; in the wheel-axis frame. */
export function roundFasteners(
  places: readonly HolePlace[],
  end: FastenerEnd,
  pieces: readonly RoundPiece[],
  { corner, modeller, chordToleranceMm }: BuildContext,
): { solid: Manifold; errorMm: number } {
  const first = pieces[0].fromMm;
  const last = pieces[pieces.length - 1].toMm;
  const profile = new modeller.CrossSection(
    [
      [0, first],
      ...pieces.flatMap(({ fromMm, toMm, radiusMm }): [number, number][] => [
        [radiusMm, fromMm],
        [radiusMm, toMm],
      ]),
      [0, last],
    ],
    'NonZero',
  );
  const radius = Math.max(...pieces.map(({ radiusMm }) => radiusMm));
  const segments = segmentsFor(radius, chordToleranceMm);
  const { hubFaceY } = axialStack(corner);
  const one = profile.revolve(segments);
  const all = places.map((place) => one.transform(matrix16(endFrame(place, end, hubFaceY))));
  return { solid: modeller.Manifold.union(all), errorMm: chordErrorMm(radius, segments) };
}

/** The fasteners as they look: hexagons for hexagons. */
function hexFasteners(stack: FastenerStack, { corner, modeller, chordToleranceMm }: BuildContext): Manifold {
  const { hubFaceY } = axialStack(corner);
  const { diameterMm, washer, reachMm, places, ends } = stack;
  const bodies = ends.flatMap((end, k) => {
    const { washerMm, piece } = end;
    const at = (fromMm: number, toMm: number, radius: number) =>
      rod(modeller, [0, 0, fromMm], [0, 0, toMm], radius, chordToleranceMm);
    const top = washerMm + piece.heightMm;
    // Pieces reach into each other, so that they grow together.
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
