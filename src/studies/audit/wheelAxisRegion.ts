import type { Corner } from '../../design/schema.ts';
import { applyDirection, applyPoint } from '../../math/rigid.ts';
import type { HolePlace } from '../../solids/fasteners/boltHoles.ts';
import { axialStack, vehicleFromWheelAxis } from '../../solids/wheelFrame.ts';
import type { Round } from './region.ts';

/** Two depths along the wheel axis, in either order: see `AxialStack`. */
export type Depths = readonly [number, number];

/**
 * A disc, cylinder or tube along the wheel axis between two depths, centred on the wheel axis or on a hole;
 * ride-height vehicle coordinates.
 */
export function alongWheelAxis(
  corner: Corner,
  [from, to]: Depths,
  radiusMm: number,
  { innerRadiusMm = 0, place: [x, z] = [0, 0] }: { innerRadiusMm?: number; place?: HolePlace } = {},
): Round {
  const vehicleFromWheel = vehicleFromWheelAxis(corner.suspension);
  const { hubFaceY } = axialStack(corner);
  return {
    centre: applyPoint(vehicleFromWheel, [x, hubFaceY + (from + to) / 2, z]),
    axis: applyDirection(vehicleFromWheel, [0, 1, 0]),
    halfLengthMm: Math.abs(to - from) / 2,
    radiusMm,
    innerRadiusMm,
  };
}

/** Intersection of two ranges of depth; undefined if they are disjoint. */
export function commonDepths(one: Depths, other: Depths): Depths | undefined {
  const from = Math.max(Math.min(...one), Math.min(...other));
  const to = Math.min(Math.max(...one), Math.max(...other));
  return from <= to ? [from, to] : undefined;
}
