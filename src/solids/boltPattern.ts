import { applyPoint } from '../math/rigid.ts';
import type { BuildContext } from './build.ts';
import { type Manifold, rod } from './modeller.ts';
import { roundingMm } from './rounding.ts';
import { wheelFromClock } from './wheelFrame.ts';

/** How far a drill runs past the metal. */
export const THROUGH_MM = 1;

/** No bolt is further from the wheel's centre, mm. */
const REACH_MM = 1000;

/** How far a part drawn with such bars or holes may be from the true one, mm, given that of the part without them. */
export const withBoltsErrorMm = (chordErrorMm: number, { chordToleranceMm }: BuildContext): number =>
  Math.max(chordErrorMm, chordToleranceMm + roundingMm(REACH_MM));

/**
 * Round bars evenly spaced on a bolt circle about the wheel axis, in the wheel-axis frame: studs, or what drills their
 * holes. The first stands at `clockingDeg`.
 */
export function boltPattern(
  { modeller, chordToleranceMm }: BuildContext,
  bolts: { count: number; circleMm: number; diameterMm: number; clockingDeg: number },
  fromYMm: number,
  toYMm: number,
): Manifold {
  const bars = Array.from({ length: bolts.count }, (_, k) => {
    const wheelFromBolt = wheelFromClock(bolts.clockingDeg + (360 * k) / bolts.count);
    return rod(
      modeller,
      applyPoint(wheelFromBolt, [0, fromYMm, bolts.circleMm / 2]),
      applyPoint(wheelFromBolt, [0, toYMm, bolts.circleMm / 2]),
      bolts.diameterMm / 2,
      chordToleranceMm,
    );
  });
  return modeller.Manifold.union(bars);
}
