import { addScaled, cross, perpendicular, scale, type Vec3 } from '../../../math/vec.ts';
import type { Zone } from '../../../solids/solid.ts';

const CIRCLE_STEPS = 64;
/** Number of lines between the rims of a disc. */
const STRUTS = 8;

/** End points of the line segments that outline zones, x y z each, in zone coordinates, mm. */
export const zoneOutlines = (zones: readonly Zone[]): Float32Array =>
  Float32Array.from(zones.flatMap((zone) => segmentsOf(zone).flat()));

/** For a sphere three great circles; for a disc both rims and lines between them. */
function segmentsOf(zone: Zone): Vec3[] {
  const { centre, radiusMm } = zone;
  if (zone.shape === 'sphere') {
    const [x, y, z]: Vec3[] = [
      [1, 0, 0],
      [0, 1, 0],
      [0, 0, 1],
    ];
    return [
      circle(centre, x, y, radiusMm),
      circle(centre, y, z, radiusMm),
      circle(centre, z, x, radiusMm),
    ].flatMap(segments);
  }
  const { axis, halfThicknessMm } = zone;
  const across = perpendicular(axis);
  const rims = [-halfThicknessMm, halfThicknessMm].map((mm) =>
    circle(addScaled(centre, axis, mm), across, cross(axis, across), radiusMm),
  );
  const struts = Array.from({ length: STRUTS }, (_, i) => {
    const at = (i * CIRCLE_STEPS) / STRUTS;
    return [rims[0][at], rims[1][at]];
  });
  return [...rims.flatMap(segments), ...struts.flat()];
}

/** Points of a circle in the plane of two orthogonal unit vectors; the last equals the first. */
const circle = (centre: Vec3, x: Vec3, y: Vec3, radius: number): Vec3[] =>
  Array.from({ length: CIRCLE_STEPS + 1 }, (_, i) => {
    const angle = (2 * Math.PI * i) / CIRCLE_STEPS;
    return addScaled(addScaled(centre, scale(x, radius), Math.cos(angle)), scale(y, radius), Math.sin(angle));
  });

const segments = (points: readonly Vec3[]): Vec3[] =>
  points.slice(1).flatMap((point, i) => [points[i], point]);
