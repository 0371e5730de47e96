import type { Carrier, Corner } from '../../design/schema.ts';
import { compose, fromAxes, invert, type Rigid, rotationAbout, translation } from '../../math/rigid.ts';
import {
  addScaled,
  cross,
  dot,
  lengthSq,
  midpoint,
  normalize,
  perpendicular,
  scale,
  sub,
  type Vec3,
} from '../../math/vec.ts';
import type { Carriers } from '../../mechanism/pose.ts';
import { axialStack, vehicleFromWheelAxis, type WheelAxis } from '../../solids/wheelFrame.ts';
import { degToRad } from '../../units/angle.ts';

/**
 * Where a section is laid. gap: through both points of a pair's gap. upright: through the wheel axis, upright at ride
 * height. level: through the wheel axis, level at ride height. across: square to the wheel axis at a depth.
 */
export type SectionKind = 'gap' | 'upright' | 'level' | 'across';

/** A gap that a section was laid through. */
export interface LaidGap {
  /** Ids of both parts, and their names; indices change with the corner. */
  key: string;
  label: string;
  /** Of the design it was measured in. */
  designHash: string;
  travelMm: number;
  steer: number;
  /**
   * What the plane rides on: the carrier of both parts where they never move against each other, else the vehicle, that
   * is the chassis.
   */
  carrier: Carrier;
  /** Frame of the plane as laid, in the frame of `carrier`. */
  carrierFromPlane: Rigid;
}

export interface SectionPlace {
  kind: SectionKind;
  /** Needed for the kind `gap`. */
  gap: LaidGap | undefined;
  /** Moved along the plane's normal; for `across` the depth, outboard of the hub's wheel-mounting face. */
  offsetMm: number;
  /** Turned about the line that the preset holds: the gap, the wheel axis, the level line. */
  aboutDeg: number;
  /** Turned about the line in the plane square to that one. */
  tiltDeg: number;
  /** The other side is cut away. */
  flipped: boolean;
}

/** A gap nearer than this to the direction of the wheel axis does not span a plane with it that can be told: sine of 20°. */
const ALONG_AXIS_SINE = 0.34;

/** From where a left corner is looked at first: of the two sides of a gap the one that faces it is cut away. */
const FIRST_EYE: Vec3 = [-0.82, -0.42, 0.38];

/**
 * Frame of the plane through a gap: x along the gap from a to b, z the normal. Besides the gap the plane holds the
 * direction of the wheel axis, so that rim, rotor and hub show their profile; where the gap runs along the axis, it holds
 * the direction from the axis to the gap, which is a plane through the axis. Where both are one point the plane holds
 * both directions. All in vehicle axes of the left corner.
 */
export function frameOfGap(a: Vec3, b: Vec3, axis: WheelAxis): Rigid {
  const middle = midpoint(a, b);
  const { direction } = axis;
  const fromAxis = sub(middle, axis.point);
  const radial = addScaled(fromAxis, direction, -dot(fromAxis, direction));
  const out = lengthSq(radial) > 1e-12 ? normalize(radial) : perpendicular(direction);
  const gap = sub(b, a);
  const x = lengthSq(gap) > 1e-12 ? normalize(gap) : out;
  const square = (v: Vec3) => addScaled(v, x, -dot(v, x));
  const other = square(direction);
  const held = lengthSq(other) > ALONG_AXIS_SINE ** 2 ? other : square(out);
  const y = lengthSq(held) > 1e-12 ? normalize(held) : perpendicular(x);
  const z = cross(x, y);
  return dot(z, FIRST_EYE) >= 0 ? fromAxes(x, y, z, middle) : fromAxes(x, scale(y, -1), scale(z, -1), middle);
}

/** Axes of the planes that hold the wheel's frame: x in the plane and z its normal, y up or forward on a drawing. */
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
 * `vehicleFromPlane` of a section at a pose, of the left corner: z points to the side that is cut away. Undefined for a
 * section through a gap while none was laid.
 */
export function vehicleFromSection(
  place: SectionPlace,
  corner: Corner,
  carriers: Carriers,
): Rigid | undefined {
  const laid = laidPlane(place, corner, carriers);
  if (laid === undefined) return undefined;
  const turned = compose(
    rotationAbout([0, 0, 0], [1, 0, 0], degToRad(place.aboutDeg)),
    rotationAbout([0, 0, 0], [0, 1, 0], degToRad(place.tiltDeg)),
  );
  const moved = compose(compose(laid, turned), translation([0, 0, place.offsetMm]));
  return place.flipped ? compose(moved, rotationAbout([0, 0, 0], [0, 1, 0], Math.PI)) : moved;
}

function laidPlane({ kind, gap }: SectionPlace, corner: Corner, carriers: Carriers): Rigid | undefined {
  if (kind === 'gap') return gap && compose(carriers[gap.carrier], gap.carrierFromPlane);
  const wheelFromPlane = fromAxes(...IN_WHEEL_FRAME[kind], [0, axialStack(corner).hubFaceY, 0]);
  return compose(compose(carriers.upright, vehicleFromWheelAxis(corner.suspension)), wheelFromPlane);
}

/** A plane in the vehicle as one that rides on a carrier. */
export const ridingOn = (carriers: Carriers, carrier: Carrier, vehicleFromPlane: Rigid): Rigid =>
  compose(invert(carriers[carrier]), vehicleFromPlane);
