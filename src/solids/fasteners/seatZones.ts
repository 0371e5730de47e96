import type { Corner } from '../../design/schema.ts';
import { applyDirection, applyPoint } from '../../math/rigid.ts';
import { addScaled, type Vec3 } from '../../math/vec.ts';
import type { Zone } from '../solid.ts';
import { axialStack, vehicleFromWheelAxis } from '../wheelFrame.ts';

/** Extension of a zone beyond a clamped face, mm, so that the face itself is in the zone. Common practice, no source. */
export const BEYOND_FACE_MM = 0.5;

/**
 * Extension of a zone beyond the edge of the clamped faces, mm: a wall on one face is this far from the rest of the other.
 * Common practice, no source.
 */
export const BEYOND_EDGE_MM = 10;

/** Extension of a zone beyond a shank's surface, mm. Common practice, no source. */
export const BEYOND_SHANK_MM = 0.5;

/**
 * Coarsest chord tolerance for clamped parts, mm. Zones at clamped faces are thin: with coarser meshes, the errors would use
 * up their thickness, and no clearance beside them could be called clear.
 */
export const MOST_CLAMPED_CHORD_MM = 0.2;

/** An axis on which zones are placed: a point and its unit vector, vehicle axes at ride height. */
export interface ZoneAxis {
  origin: Vec3;
  axis: Vec3;
}

/** An axis parallel to the wheel axis, through x, z of the wheel-axis frame; places along it are depths. */
export function depthAxis(corner: Corner, [x, z]: readonly [x: number, z: number] = [0, 0]): ZoneAxis {
  const vehicleFromWheel = vehicleFromWheelAxis(corner.suspension);
  return {
    origin: applyPoint(vehicleFromWheel, [x, axialStack(corner).hubFaceY, z]),
    axis: applyDirection(vehicleFromWheel, [0, 1, 0]),
  };
}

/**
 * A round disc between two places of an axis, extended by half a millimetre and `chordMm` at both ends. `chordMm`, the chord
 * tolerance, compensates for zones being shrunk by the chord error of the surface that they cut.
 */
export function disc(
  { origin, axis }: ZoneAxis,
  [from, to]: readonly [number, number],
  radiusMm: number,
  chordMm: number,
  what: string,
): Zone {
  return {
    shape: 'slab',
    centre: addScaled(origin, axis, (from + to) / 2),
    axis,
    halfThicknessMm: Math.abs(to - from) / 2 + BEYOND_FACE_MM + chordMm,
    radiusMm,
    what,
  };
}

/**
 * Zone of two round faces clamped together at a place of an axis: a thin disc at their plane. `radiusMm`: radius of the
 * smaller face.
 */
export const clampedFaces = (
  axis: ZoneAxis,
  at: number,
  radiusMm: number,
  chordMm: number,
  what: string,
): Zone => disc(axis, [at, at], radiusMm + BEYOND_EDGE_MM, chordMm, what);

/** Zone of a round shank in the parts that it passes through, from one place of an axis to another. */
export const shankIn = (
  axis: ZoneAxis,
  places: readonly [number, number],
  diameterMm: number,
  chordMm: number,
  what: string,
): Zone => disc(axis, places, diameterMm / 2 + BEYOND_SHANK_MM + chordMm, chordMm, what);
