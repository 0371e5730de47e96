import { Plane, Vector3 } from 'three';
import { type Side, shownPoint } from '../../design/side.ts';
import type { Rigid } from '../../math/rigid.ts';

/** Off the plane by this much, mm, so that what is drawn in the plane stays: above the rounding of the graphics card. */
const HAIR_MM = 0.02;
/** Beyond any corner. */
const FAR_MM = 1e6;

/**
 * Cuts away all that is drawn on its negative side. There is always one, far off while nothing is cut: with their number
 * the shaders of everything would have to be made anew.
 */
export const clipPlane = new Plane(new Vector3(0, 0, -1), FAR_MM);

/** Puts the clipping plane where a section's is, given for the left corner; undefined for nothing cut. */
export function setClipPlane(vehicleFromPlane: Rigid | undefined, side: Side): void {
  if (vehicleFromPlane === undefined) {
    clipPlane.set(new Vector3(0, 0, -1), FAR_MM);
    return;
  }
  const t = vehicleFromPlane;
  const away = new Vector3(...shownPoint(side, [t[2], t[6], t[10]]));
  const at = new Vector3(...shownPoint(side, [t[3], t[7], t[11]]));
  clipPlane.setFromNormalAndCoplanarPoint(away.negate(), at);
  clipPlane.constant += HAIR_MM;
}

/** Whether a point as shown is cut away. */
export const isCutAway = (point: Vector3): boolean => clipPlane.distanceToPoint(point) < 0;
