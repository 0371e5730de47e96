import type { Carrier, Corner } from '../../design/schema.ts';
import { compose, fromAxes, invert, type Rigid, rotationAbout, translation } from '../../math/rigid.ts';
import type { Vec3 } from '../../math/vec.ts';
import type { Carriers } from '../../mechanism/pose.ts';
import { axialStack, vehicleFromWheelAxis } from '../../solids/wheelFrame.ts';
import { degToRad } from '../../units/angle.ts';

/**
 * Preset of a section plane. gap: through both points of a pair's gap. upright: through the wheel axis, vertical at ride
 * height. level: through the wheel axis, level at ride height. across: square to the wheel axis at a depth.
 */
export type SectionKind = 'gap' | 'upright' | 'level' | 'across';

/** A gap with a section plane through it. */
export interface SectionGap {
  /** `key`: ids of both parts; indices change with the corner. `label`: their names. */
  key: string;
  label: string;
  /** Hash of the design in which the gap was measured. */
  designHash: string;
  travelMm: number;
  steer: number;
  /** Carrier that the plane is fixed to: that of both parts if they never move relative to each other, else the chassis. */
  carrier: Carrier;
  /** Frame of the plane in the frame of `carrier`. */
  carrierFromPlane: Rigid;
}

export interface SectionPlace {
  kind: SectionKind;
  /** Required for the kind `gap`. */
  gap: SectionGap | undefined;
  /** Offset along the plane's normal; for `across` the depth, outboard of the hub's wheel-mounting face. */
  offsetMm: number;
  /** Rotation about the fixed line of the preset: the gap, the wheel axis, the level line. */
  aboutDeg: number;
  /** Rotation about the line in the plane that is square to the fixed line. */
  tiltDeg: number;
  /** Whether the other side is cut away. */
  flipped: boolean;
}

/** Axes of the presets in the wheel's frame: x and y in the plane (y up or forward on a drawing), z its normal. */
const IN_WHEEL_FRAME: Record<Exclude<SectionKind, 'gap'>, readonly [Vec3, Vec3, Vec3]> = {
  upright: [
    [0, -1, 0],
    [0, 0, 1],
    [-1, 0, 0],
  ],
  level: [
    [0, -1, 0],
    [1, 0, 0],
    [0, 0, 1],
  ],
  across: [
    [-1, 0, 0],
    [0, 0, 1],
    [0, 1, 0],
  ],
};

/**
 * `vehicleFromPlane` of a section at a pose, of the left corner; z points to the side that is cut away. Undefined for the
 * kind `gap` without a gap.
 */
export function vehicleFromSection(
  place: SectionPlace,
  corner: Corner,
  carriers: Carriers,
): Rigid | undefined {
  const preset = presetPlane(place, corner, carriers);
  if (preset === undefined) return undefined;
  const turned = compose(
    rotationAbout([0, 0, 0], [1, 0, 0], degToRad(place.aboutDeg)),
    rotationAbout([0, 0, 0], [0, 1, 0], degToRad(place.tiltDeg)),
  );
  const moved = compose(compose(preset, turned), translation([0, 0, place.offsetMm]));
  return place.flipped ? compose(moved, rotationAbout([0, 0, 0], [0, 1, 0], Math.PI)) : moved;
}

function presetPlane({ kind, gap }: SectionPlace, corner: Corner, carriers: Carriers): Rigid | undefined {
  if (kind === 'gap') return gap && compose(carriers[gap.carrier], gap.carrierFromPlane);
  const wheelFromPlane = fromAxes(...IN_WHEEL_FRAME[kind], [0, axialStack(corner).hubFaceY, 0]);
  return compose(compose(carriers.upright, vehicleFromWheelAxis(corner.suspension)), wheelFromPlane);
}

/** `carrierFromPlane` of a plane given in the vehicle. */
export const inCarrier = (carriers: Carriers, carrier: Carrier, vehicleFromPlane: Rigid): Rigid =>
  compose(invert(carriers[carrier]), vehicleFromPlane);
