import { addScaled, cross, perpendicular, scale, type Vec3 } from '../../math/vec.ts';
import type { Zone } from '../../solids/solid.ts';

const CIRCLE_STEPS = 64;
/** Lines from one rim of a disc to the other. */
const STRUTS = 8;

/** Ends of the line segments that outline zones, x y z each, in the coordinates of the zones, mm. */
export const zoneOutlines = (zones: readonly Zone[]): Float32Array =>
  Float32Array.from(zones.flatMap((zone) => segmentsOf(zone).flat()));

/** Three great circles of a sphere; both rims of a disc and lines between them. */
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
    ].flatMap(joined);
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
  return [...rims.flatMap(joined), ...struts.flat()];
}

/** Points round a circle in the plane of two unit vectors that are square to each other; the last is the first. */
const circle = (centre: Vec3, x: Vec3, y: Vec3, radius: number): Vec3[] =>
  Array.from({ length: CIRCLE_STEPS + 1 }, (_, i) => {
    const angle = (2 * Math.PI * i) / CIRCLE_STEPS;
    return addScaled(addScaled(centre, scale(x, radius), Math.cos(angle)), scale(y, radius), Math.sin(angle));
  });

const joined = (points: readonly Vec3[]): Vec3[] => points.slice(1).flatMap((point, i) => [points[i], point]);
