import type { Side } from '../../design/side.ts';
import { shownPoint } from '../../design/side.ts';
import { addScaled, cross, dot, lengthSq, normalize, perpendicular, sub, type Vec3 } from '../../math/vec.ts';
import type { Standpoint } from '../stores/viewStore.ts';

/** From what is looked at toward the eye, of a left corner; vehicle axes. */
const FROM: Record<Exclude<Standpoint, 'axis'>, Vec3> = {
  threeQuarter: [-0.82, -0.42, 0.38],
  outboard: [0, 1, 0],
  rear: [-1, 0, 0],
  // A little to the rear, so that up on the screen is forward.
  top: [-1e-4, 0, 1],
};

/** Unit vector toward the eye of a standpoint; `spinAxis` is the wheel's, outboard, as shown. */
export function eyeDirection(standpoint: Standpoint, side: Side, spinAxis: Vec3): Vec3 {
  return standpoint === 'axis' ? normalize(spinAxis) : normalize(shownPoint(side, FROM[standpoint]));
}

/** Straighter down or up than this, what is up on the screen is the vehicle's front. */
const UPRIGHT_COS = 0.995;

/** Toward an eye that looks straight at a cut with this normal; from straight above or below, with the front up. */
export const eyeOnCut = (normal: Vec3): Vec3 =>
  Math.abs(normal[2]) > UPRIGHT_COS ? normalize([-1e-4, 0, Math.sign(normal[2])]) : normalize(normal);

/** The line a-b, to which `squareOn` looks square (unit); for a line of no length one to which `preferred` is square. */
export function squareAxis(a: Vec3, b: Vec3, preferred: Vec3): Vec3 {
  const along = sub(b, a);
  return lengthSq(along) > 0 ? normalize(along) : perpendicular(preferred);
}

/** Directions tried round a dimension. */
const TURNS = 36;
/** How much a hidden end point weighs against a turn away from the preferred direction (a right angle is 1). */
const HIDDEN = 2;

/**
 * The direction from which the line a-b is seen at its true length: square to it, as near to `preferred` (unit) as
 * can be without `hidden` (how many of the two ends cannot be seen from there, 0 to 2) getting in the way. For a line
 * of no length any direction is square: `preferred` is tried first.
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
    // Not better even if nothing is hidden from there: that need not be asked.
    if (turned >= least - 1e-9) continue;
    const cost = HIDDEN * hidden(eye) + turned;
    if (cost < least - 1e-9) {
      least = cost;
      best = eye;
    }
  }
  return best;
}
