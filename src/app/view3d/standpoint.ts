import type { Side } from '../../design/side.ts';
import { shownPoint } from '../../design/side.ts';
import { addScaled, cross, dot, lengthSq, normalize, perpendicular, sub, type Vec3 } from '../../math/vec.ts';
import type { Standpoint } from '../state/viewStore.ts';

/** Directions toward the eye for a left corner, in vehicle axes. */
const EYES: Record<Exclude<Standpoint, 'axis'>, Vec3> = {
  threeQuarter: [-0.82, -0.42, 0.38],
  outboard: [0, 1, 0],
  rear: [-1, 0, 0],
  // Slightly to the rear, so that up on the screen is forward.
  top: [-1e-4, 0, 1],
};

/** Unit vector toward the eye of a standpoint; `spinAxis` is the wheel's, outboard, as shown. */
export function eyeDirection(standpoint: Standpoint, side: Side, spinAxis: Vec3): Vec3 {
  return standpoint === 'axis' ? normalize(spinAxis) : normalize(shownPoint(side, EYES[standpoint]));
}

/** Above this cosine to the vertical, the vehicle's front is up on the screen. */
const VERTICAL_COS = 0.995;

/** Eye direction square to a cut with this normal; for a nearly horizontal cut with the vehicle's front up. */
export const eyeOnCut = (normal: Vec3): Vec3 =>
  Math.abs(normal[2]) > VERTICAL_COS ? normalize([-1e-4, 0, Math.sign(normal[2])]) : normalize(normal);

/** Unit vector along a-b; if a and b coincide, one that is square to `preferred`. */
export function squareAxis(a: Vec3, b: Vec3, preferred: Vec3): Vec3 {
  const along = sub(b, a);
  return lengthSq(along) > 0 ? normalize(along) : perpendicular(preferred);
}

/** Number of directions tried around a dimension. */
const TURNS = 36;
/** Cost of one hidden end point, relative to a turn by a right angle from the preferred direction. */
const HIDDEN_COST = 2;

/**
 * Eye direction (unit) square to the line a-b, so that it is seen at true length. Weighs the turn from `preferred` (unit)
 * against `hidden`, the number of ends that are hidden from an eye direction, 0 to 2. If a and b coincide, every direction
 * is square, and `preferred` is tried first.
 */
export function squareOn(a: Vec3, b: Vec3, preferred: Vec3, hidden: (eye: Vec3) => number): Vec3 {
  const axis = squareAxis(a, b, preferred);
  const flat = addScaled(preferred, axis, -dot(preferred, axis));
  const x = lengthSq(flat) > 1e-6 ? normalize(flat) : perpendicular(axis);
  const y = cross(axis, x);
  let best = x;
  let least = Number.POSITIVE_INFINITY;
  for (let i = 0; i < TURNS; i++) {
    // 0, +1, -1, +2, -2 ... turns away from the preferred direction.
    const turn = (i % 2 === 0 ? -i / 2 : (i + 1) / 2) * ((2 * Math.PI) / TURNS);
    const eye = addScaled(
      [x[0] * Math.cos(turn), x[1] * Math.cos(turn), x[2] * Math.cos(turn)],
      y,
      Math.sin(turn),
    );
    const turned = 1 - dot(eye, preferred);
    // Skips the check of hidden ends if the turn alone costs too much.
    if (turned >= least - 1e-9) continue;
    const cost = HIDDEN_COST * hidden(eye) + turned;
    if (cost < least - 1e-9) {
      least = cost;
      best = eye;
    }
  }
  return best;
}
