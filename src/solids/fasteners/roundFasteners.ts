import type { Entry } from '../../design/schema.ts';
import type { BuildContext } from '../build.ts';
import { chordErrorMm, type Manifold, matrix16, segmentsFor } from '../modeller.ts';
import { axialStack } from '../wheelFrame.ts';
import type { HolePlace } from './boltHoles.ts';
import { endFrame } from './fastenerFrame.ts';
import type { FastenerEnd, FastenerStack } from './fastenerStack.ts';

/** A round piece of a fastener along its axis: distances of its ends from a clamped face, positive away from it. */
export interface RoundPiece {
  fromMm: number;
  toMm: number;
  radiusMm: number;
}

/** Carrier of a set of bolts: that of the parts which they hold. */
export const boltsCarrier = ({ joins }: Pick<Entry<'bolts'>, 'joins'>): 'wheel' | 'upright' =>
  joins === 'wheel' || joins === 'rotor' ? 'wheel' : 'upright';

/** Pieces of one fitted fastener, measured from the face under its first end, in order along its axis. */
export function seatedPieces({ ends, diameterMm, washer, reachMm, gripMm }: FastenerStack): RoundPiece[] {
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
  if (second !== undefined) pieces.push(...bearing(second, (away) => -gripMm - away));
  const tip = -reachMm;
  const far = Math.min(...pieces.map(({ fromMm }) => fromMm), 0);
  // The shank between the ends, and the thread beyond the far end.
  const near = second === undefined ? tip : -gripMm;
  pieces.push({ fromMm: near, toMm: 0, radiusMm: shank });
  if (tip < far && second !== undefined) pieces.push({ fromMm: tip, toMm: far, radiusMm: shank });
  return pieces.toSorted((a, b) => a.fromMm - b.fromMm);
}

/** Bodies of revolution about the axis of each hole, of adjoining pieces; in the wheel-axis frame. */
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
