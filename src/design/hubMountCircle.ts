import type { Entry } from './schema.ts';

/** The circle on which the holes for the bolts to the upright lie, whichever pattern they have; diameter, mm. */
export const hubMountCircleMm = ({ mountRectangle, mountBoltCircle }: Entry<'hub'>): number =>
  mountRectangle === undefined ? mountBoltCircle : Math.hypot(mountRectangle.width, mountRectangle.height);
