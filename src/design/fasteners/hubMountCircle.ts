import type { Entry } from '../schema.ts';

/** Diameter of the circle through the holes for the bolts to the upright, for either pattern, mm. */
export const hubMountCircleMm = ({ mountRectangle, mountBoltCircle }: Entry<'hub'>): number =>
  mountRectangle === undefined ? mountBoltCircle : Math.hypot(mountRectangle.width, mountRectangle.height);
