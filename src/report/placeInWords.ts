import type { Carrier, Corner } from '../design/schema.ts';
import { shownPoint } from '../design/side.ts';
import { carriersOf } from '../layouts/layoutOf.ts';
import { applyPoint, compose, invert, type Rigid } from '../math/rigid.ts';
import type { Vec3 } from '../math/vec.ts';
import type { Carriers } from '../mechanism/pose.ts';
import { axialStack, vehicleFromWheelAxis } from '../solids/wheelFrame.ts';
import type { SweepResult } from '../sweep/result.ts';
import { radToDeg } from '../units/angle.ts';
import { angle, type Figures } from './figures.ts';

/** A place about the wheel's axis. */
export interface WheelPlace {
  /** 0 = straight above the axis at ride height, positive toward the rear, -180 to 180; turns with the upright. */
  clockDeg: number;
  radiusMm: number;
  /** From the hub's wheel-mounting face along the axis, positive outboard. */
  depthMm: number;
}

/** `vehicleFromCarrier` at a step of a sweep, or of a tight spot, which has one pose (step 0). */
export function carrierAt(
  { suspension }: Corner,
  result: Pick<SweepResult, 'carriers'>,
  step: number,
  carrier: Carrier,
): Rigid {
  const carriers = carriersOf(suspension);
  const at = (step * carriers.length + carriers.indexOf(carrier)) * 12;
  return result.carriers.subarray(at, at + 12);
}

/** `vehicleFromCarrier` of every carrier at a tight spot. */
export const carriersAt = (corner: Corner, spot: Pick<SweepResult, 'carriers'>): Carriers =>
  Object.fromEntries(
    carriersOf(corner.suspension).map((carrier) => [carrier, carrierAt(corner, spot, 0, carrier)]),
  );

/**
 * Place of `point` (vehicle axes at the pose, left corner) about the wheel axis, in the frame of the upright, as measured
 * at the bench.
 */
export function wheelPlace(corner: Corner, vehicleFromUpright: Rigid, point: Vec3): WheelPlace {
  const vehicleFromAxis = compose(vehicleFromUpright, vehicleFromWheelAxis(corner.suspension));
  const [x, y, z] = applyPoint(invert(vehicleFromAxis), point);
  return {
    clockDeg: radToDeg(Math.atan2(-x, z)),
    radiusMm: Math.hypot(x, z),
    depthMm: y - axialStack(corner).hubFaceY,
  };
}

/** "X +12.3, Y +640.0, Z +210.4 mm", in vehicle axes at the pose, for the side of the corner. */
export function coordinatesInWords(corner: Corner, point: Vec3, figures: Figures): string {
  const [x, y, z] = shownPoint(corner.side, point).map((value) => figures.signedPlace(value));
  return `X ${x}, Y ${y}, Z ${z} ${figures.unit}`;
}

/** "96.0° rearward of the top, 142.0 mm from the wheel axis, 12.3 mm inboard of the hub face"; "on the wheel axis, ...". */
export function wheelPlaceInWords({ clockDeg, radiusMm, depthMm }: WheelPlace, figures: Figures): string {
  const clock = angle(Math.abs(clockDeg));
  const way =
    clock === angle(0) ? 'at the top' : `${clock} ${clockDeg > 0 ? 'rearward' : 'forward'} of the top`;
  const depth = figures.placeWithUnit(Math.abs(depthMm));
  const side =
    depth === figures.placeWithUnit(0)
      ? 'level with the hub face'
      : `${depth} ${depthMm > 0 ? 'outboard' : 'inboard'} of the hub face`;
  const radius = figures.placeWithUnit(radiusMm);
  const onAxis = radius === figures.placeWithUnit(0);
  return onAxis ? `on the wheel axis, ${side}` : `${way}, ${radius} from the wheel axis, ${side}`;
}

/**
 * A point on a part as text: vehicle coordinates at the pose, and for a part on the upright or the wheel its place about
 * the wheel axis. `point` in vehicle axes at the pose, left corner.
 */
export function placeInWords(
  corner: Corner,
  carrier: Carrier,
  vehicleFromUpright: Rigid,
  point: Vec3,
  figures: Figures,
): string {
  const coordinates = coordinatesInWords(corner, point, figures);
  if (carrier !== 'upright' && carrier !== 'wheel') return coordinates;
  const place = wheelPlaceInWords(wheelPlace(corner, vehicleFromUpright, point), figures);
  return carrier === 'wheel'
    ? `${coordinates}; ${place} (at any turn of the wheel)`
    : `${coordinates}; ${place}`;
}
