import type { HolePlace } from './boltHoles.ts';
import type { BuildContext } from './build.ts';
import { type Manifold, rod } from './modeller.ts';
import { roundingMm } from './rounding.ts';

/** How far a drill runs past the metal. */
export const THROUGH_MM = 1;

/** No bolt is further from the wheel's centre, mm. */
const REACH_MM = 1000;

/** How far a part drawn with such bars or holes may be from the true one, mm, given that of the part without them. */
export const withBoltsErrorMm = (chordErrorMm: number, { chordToleranceMm }: BuildContext): number =>
  Math.max(chordErrorMm, chordToleranceMm + roundingMm(REACH_MM));

/** Round bars along the wheel axis at some places, in the wheel-axis frame: studs, or what drills their holes. */
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
