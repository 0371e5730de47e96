import type { BuildContext } from '../build.ts';
import { type Manifold, rod } from '../modeller.ts';
import { roundingMm } from '../rounding.ts';
import type { HolePlace } from './boltHoles.ts';

/** Overrun of a drilled hole past the metal, mm. */
export const THROUGH_MM = 1;

/** Bound on the distance of a bolt from the wheel's centre, mm. */
const REACH_MM = 1000;

/** Error of a part drawn with such bars or holes, mm. `chordErrorMm`: error of the part without them. */
export const withBoltsErrorMm = (chordErrorMm: number, { chordToleranceMm }: BuildContext): number =>
  Math.max(chordErrorMm, chordToleranceMm + roundingMm(REACH_MM));

/** Round bars along the wheel axis, in the wheel-axis frame: studs, or bars to cut holes with. */
export function boltPattern(
  { modeller, chordToleranceMm }: BuildContext,
  bolts: { places: readonly HolePlace[]; diameterMm: number },
  fromYMm: number,
  toYMm: number,
): Manifold {
  const bars = bolts.places.map(([x, z]) =>
    rod(modeller, [x, fromYMm, z], [x, toYMm, z], bolts.diameterMm / 2, chordToleranceMm),
  );
  return modeller.Manifold.union(bars);
}
