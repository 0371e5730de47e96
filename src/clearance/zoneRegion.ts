import { cross, dot, normalize, perpendicular, sub, type Vec3 } from '../math/vec.ts';
import type { Zone } from '../solids/solid.ts';
import { pointTriangleDistanceSq } from './closestPoint.ts';

/** A zone in axes of its own: origin at its centre, z along a slab's axis. */
export interface Region {
  toLocal(x: number, y: number, z: number): Vec3;
  /** How deep a local point is inside: 0 on the boundary, negative outside. Concave. */
  depthMm(x: number, y: number, z: number): number;
  /** Upper bound of the depth over a triangle of nine local coordinates. */
  deepestMm(triangle: Float64Array): number;
  /** Where the way from an inside point to an outside one leaves the zone: 0..1. */
  exit(x: number, y: number, z: number, toX: number, toY: number, toZ: number): number;
}

/** Throws a RangeError for a zone without size or axis. */
export function regionOf(zone: Zone): Region {
  if (!(zone.radiusMm > 0 && zone.radiusMm < Number.POSITIVE_INFINITY))
    throw new RangeError(`a zone needs a radius above 0 mm, not ${zone.radiusMm}`);
  return zone.shape === 'sphere' ? sphereRegion(zone) : slabRegion(zone);
}

/** Parameter at which `p + s d` leaves a circle or sphere about the origin, p inside: the positive root. */
function leave(pp: number, pd: number, dd: number, radius: number): number {
  const c = pp - radius * radius;
  const root = Math.sqrt(Math.max(0, pd * pd - dd * c));
  const s = pd <= 0 ? (root - pd) / dd : -c / (pd + root);
  return s >= 0 ? Math.min(1, s) : 0;
}

function sphereRegion({ centre, radiusMm }: Extract<Zone, { shape: 'sphere' }>): Region {
  return {
    toLocal: (x, y, z) => [x - centre[0], y - centre[1], z - centre[2]],
    depthMm: (x, y, z) => radiusMm - Math.sqrt(x * x + y * y + z * z),
    deepestMm: (triangle) => radiusMm - Math.sqrt(pointTriangleDistanceSq(0, 0, 0, triangle, 0)),
    exit(x, y, z, toX, toY, toZ) {
      const [u, v, w] = [toX - x, toY - y, toZ - z];
      return leave(x * x + y * y + z * z, x * u + y * v + z * w, u * u + v * v + w * w, radiusMm);
    },
  };
}

function slabRegion(zone: Extract<Zone, { shape: 'slab' }>): Region {
  const { centre, radiusMm, halfThicknessMm } = zone;
  if (!(halfThicknessMm > 0 && halfThicknessMm < Number.POSITIVE_INFINITY))
    throw new RangeError(`a slab needs a half thickness above 0 mm, not ${halfThicknessMm}`);
  const axis = normalize(zone.axis);
  const right = perpendicular(axis);
  const up = cross(axis, right);
  const flat = new Float64Array(9);
  return {
    toLocal(x, y, z) {
      const p = sub([x, y, z], centre);
      return [dot(p, right), dot(p, up), dot(p, axis)];
    },
    depthMm: (x, y, z) => Math.min(halfThicknessMm - Math.abs(z), radiusMm - Math.sqrt(x * x + y * y)),
    deepestMm(triangle) {
      const [z0, z1, z2] = [triangle[2], triangle[5], triangle[8]];
      const straddles = Math.min(z0, z1, z2) <= 0 && Math.max(z0, z1, z2) >= 0;
      const least = straddles ? 0 : Math.min(Math.abs(z0), Math.abs(z1), Math.abs(z2));
      flat.set(triangle);
      flat[2] = 0;
      flat[5] = 0;
      flat[8] = 0;
      const offAxis = Math.sqrt(pointTriangleDistanceSq(0, 0, 0, flat, 0));
      return Math.min(halfThicknessMm - least, radiusMm - offAxis);
    },
    exit(x, y, z, toX, toY, toZ) {
      const [u, v, w] = [toX - x, toY - y, toZ - z];
      const alongSide = u * u + v * v;
      const side = alongSide > 0 ? leave(x * x + y * y, x * u + y * v, alongSide, radiusMm) : 1;
      const end = w === 0 ? 1 : ((w > 0 ? halfThicknessMm : -halfThicknessMm) - z) / w;
      return Math.max(0, Math.min(1, side, end));
    },
  };
}
