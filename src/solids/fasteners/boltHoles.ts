import type { Entry } from '../../design/schema.ts';
import { applyPoint } from '../../math/rigid.ts';
import { wheelFromClock } from '../wheelFrame.ts';

/** Centre of a hole parallel to the wheel axis, in the wheel-axis frame, mm. */
export type HolePlace = readonly [x: number, z: number];

/** Converts a place from the frame of a clocking (x toward lesser clocking, z outward) to the wheel-axis frame. */
export function clockedPlace(clockingDeg: number, [x, z]: HolePlace): HolePlace {
  const place = applyPoint(wheelFromClock(clockingDeg), [x, 0, z]);
  return [place[0], place[2]];
}

/** Holes evenly spaced on a circle about the wheel axis, the first at `clockingDeg`, toward larger clocking. */
export const circlePlaces = (count: number, circleMm: number, clockingDeg: number): HolePlace[] =>
  Array.from({ length: count }, (_, k) => clockedPlace(clockingDeg + (360 * k) / count, [0, circleMm / 2]));

/** Holes of a bearing housing for its bolts to the upright, in order of increasing clocking for either pattern. */
export function hubMountPlaces(hub: Entry<'hub'>): HolePlace[] {
  const { mountRectangle, mountBoltCount, mountBoltCircle, clockingDeg } = hub;
  if (mountRectangle === undefined) return circlePlaces(mountBoltCount, mountBoltCircle, clockingDeg);
  const [x, z] = [mountRectangle.width / 2, mountRectangle.height / 2];
  return [[-x, z] as const, [-x, -z] as const, [x, -z] as const, [x, z] as const].map((place) =>
    clockedPlace(clockingDeg, place),
  );
}
