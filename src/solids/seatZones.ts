import type { Corner } from '../design/schema.ts';
import { applyDirection, applyPoint } from '../math/rigid.ts';
import { addScaled, type Vec3 } from '../math/vec.ts';
import type { Zone } from './solid.ts';
import { axialStack, vehicleFromWheelAxis } from './wheelFrame.ts';

/** Beyond a clamped face, so that the face itself lies in the zone. Common practice, no source. */
export const BEYOND_FACE_MM = 0.5;

/**
 * Beyond the edge of what is clamped, along the faces: a wall that stands up from the one face is this far from what is left
 * of the other. Common practice, no source.
 */
export const BEYOND_EDGE_MM = 10;

/** Beyond a shank, inside what it passes through. Common practice, no source. */
export const BEYOND_SHANK_MM = 0.5;

/**
 * Parts that are clamped together are meshed at least this closely, mm. Zones at clamped faces are thin: with coarser meshes
 * the errors take all of their thickness, and no clearance beside them could be called clear.
 */
export const MOST_CLAMPED_CHORD_MM = 0.2;

/** An axis along which zones are placed: a point of it and its unit vector, vehicle axes at ride height. */
export interface ZoneAxis {
  origin: Vec3;
  axis: Vec3;
}

/** An axis parallel to the wheel axis; places along it are depths. x and z are those of the wheel-axis frame. */
export function depthAxis(corner: Corner, [x, z]: readonly [x: number, z: number] = [0, 0]): ZoneAxis {
  const vehicleFromWheel = vehicleFromWheelAxis(corner.suspension);
  return {
    origin: applyPoint(vehicleFromWheel, [x, axialStack(corner).hubFaceY, z]),
    axis: applyDirection(vehicleFromWheel, [0, 1, 0]),
  };
}

/**
 * A round disc between two places of an axis and half a millimetre beyond each. Zones are drawn in by the chord error of
 * the surface that is cut, so that this is added to the thickness: `chordMm`, the chord tolerance.
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
 * Two round faces that are clamped together at a place of an axis: a thin disc about their plane. `radiusMm`: of the smaller
 * face, at whose edge the clamping ends.
 */
export const clampedFaces = (
  axis: ZoneAxis,
  at: number,
  radiusMm: number,
  chordMm: number,
  what: string,
): Zone => disc(axis, [at, at], radiusMm + BEYOND_EDGE_MM, chordMm, what);

/** A round shank in what it passes through, from one place of an axis to another. */
export const shankIn = (
  axis: ZoneAxis,
  places: readonly [number, number],
  diameterMm: number,
  chordMm: number,
  what: string,
): Zone => disc(axis, places, diameterMm / 2 + BEYOND_SHANK_MM + chordMm, chordMm, what);
