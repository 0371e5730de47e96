import { Plane, Vector3 } from 'three';
import { type Side, shownPoint } from '../../design/side.ts';
import type { Rigid } from '../../math/rigid.ts';

/** Offset from the section plane, mm, so that geometry in the plane is kept; above the rounding of the graphics card. */
const OFFSET_MM = 0.02;
/** Beyond any corner. */
const FAR_MM = 1e6;

/**
 * Clips everything on its negative side. Without a section it lies far off instead of being removed, because a change of the
 * number of clipping planes recompiles all shaders.
 */
export const clipPlane = new Plane(new Vector3(0, 0, -1), FAR_MM);

/** Moves the clipping plane to a section plane of the left corner; undefined for no section. */
export function setClipPlane(vehicleFromPlane: Rigid | undefined, side: Side): void {
  if (vehicleFromPlane === undefined) {
    clipPlane.set(new Vector3(0, 0, -1), FAR_MM);
    return;
  }
  const t = vehicleFromPlane;
  const away = new Vector3(...shownPoint(side, [t[2], t[6], t[10]]));
  const at = new Vector3(...shownPoint(side, [t[3], t[7], t[11]]));
  clipPlane.setFromNormalAndCoplanarPoint(away.negate(), at);
  clipPlane.constant += OFFSET_MM;
}

/** Whether a point as shown is cut away. */
export const isCutAway = (point: Vector3): boolean => clipPlane.distanceToPoint(point) < 0;
