import { cross, normalize, perpendicular } from '../math/vec.ts';
import type { Zone } from '../solids/solid.ts';
import { pointTriangleDistanceSq } from './closestPoint.ts';

/** A zone in local axes: origin at its centre, z along a slab's axis. */
export interface Region {
  /** Converts a point of the zone's parent frame to local axes; writes it to `out[at]`. */
  toLocal(x: number, y: number, z: number, out: Float64Array | number[], at: number): void;
  /** Converts a local point to the parent frame; writes it to `out[at]`. */
  fromLocal(x: number, y: number, z: number, out: Float64Array | number[], at: number): void;
  /** Depth of a local point inside: see `depthMm`. */
  localDepthMm(x: number, y: number, z: number): number;
  /** Depth of a point of the parent frame inside: 0 on the boundary, negative outside. Concave. */
  depthMm(x: number, y: number, z: number): number;
  /** Upper bound of the depth over a triangle of nine local coordinates. */
  deepestMm(triangle: Float64Array): number;
  /** Where the segment from an inside point to an outside point leaves the zone: 0..1. */
  exit(x: number, y: number, z: number, toX: number, toY: number, toZ: number): number;
}

/** Throws a RangeError for a zone without size or axis. */
export function regionOf(zone: Zone): Region {
  if (!(zone.radiusMm > 0 && zone.radiusMm < Number.POSITIVE_INFINITY))
    throw new RangeError(`a zone needs a radius above 0 mm, not ${zone.radiusMm}`);
  return zone.shape === 'sphere' ? sphereRegion(zone) : slabRegion(zone);
}

/** Parameter at which `p + s d` leaves a circle or sphere about the origin, for p inside: the positive root. */
function leave(pp: number, pd: number, dd: number, radius: number): number {
  const c = pp - radius * radius;
  const root = Math.sqrt(Math.max(0, pd * pd - dd * c));
  const s = pd <= 0 ? (root - pd) / dd : -c / (pd + root);
  return s >= 0 ? Math.min(1, s) : 0;
}

function sphereRegion({ centre, radiusMm }: Extract<Zone, { shape: 'sphere' }>): Region {
  const [cx, cy, cz] = centre;
  return {
    toLocal(x, y, z, out, at) {
      out[at] = x - cx;
      out[at + 1] = y - cy;
      out[at + 2] = z - cz;
    },
    fromLocal(x, y, z, out, at) {
      out[at] = cx + x;
      out[at + 1] = cy + y;
      out[at + 2] = cz + z;
    },
    localDepthMm: (x, y, z) => radiusMm - Math.sqrt(x * x + y * y + z * z),
    depthMm(x, y, z) {
      const [u, v, w] = [x - cx, y - cy, z - cz];
      return radiusMm - Math.sqrt(u * u + v * v + w * w);
    },
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
  const [cx, cy, cz] = centre;
  const [rx, ry, rz] = right;
  const [ux, uy, uz] = cross(axis, right);
  const [ax, ay, az] = axis;
  const flat = new Float64Array(9);
  return {
    toLocal(x, y, z, out, at) {
      const [u, v, w] = [x - cx, y - cy, z - cz];
      out[at] = u * rx + v * ry + w * rz;
      out[at + 1] = u * ux + v * uy + w * uz;
      out[at + 2] = u * ax + v * ay + w * az;
    },
    fromLocal(x, y, z, out, at) {
      out[at] = cx + x * rx + y * ux + z * ax;
      out[at + 1] = cy + x * ry + y * uy + z * ay;
      out[at + 2] = cz + x * rz + y * uz + z * az;
    },
    localDepthMm: (x, y, z) => Math.min(halfThicknessMm - Math.abs(z), radiusMm - Math.sqrt(x * x + y * y)),
    depthMm(x, y, z) {
      const [u, v, w] = [x - cx, y - cy, z - cz];
      const right = u * rx + v * ry + w * rz;
      const up = u * ux + v * uy + w * uz;
      const along = u * ax + v * ay + w * az;
      return Math.min(halfThicknessMm - Math.abs(along), radiusMm - Math.sqrt(right * right + up * up));
    },
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
