import { type AxialDepths, axialDepths, entriesOf } from '../design/axialDepths.ts';
import type { Corner, Entry, PartKind, Suspension } from '../design/schema.ts';
import { applyDirection, applyPoint, compose, fromAxes, type Rigid, rotationAbout } from '../math/rigid.ts';
import { addScaled, cross, normalize, type Vec3 } from '../math/vec.ts';
import type { Carriers } from '../mechanism/pose.ts';
import { spinAxis } from '../mechanism/spinAxis.ts';
import { degToRad } from '../units/angle.ts';

/** Frame of the wheel at ride height: y outboard along the spin axis, z up in the wheel's plane, x forward. */
export function vehicleFromWheelAxis(suspension: Suspension): Rigid {
  const y = spinAxis(suspension);
  const z = normalize(addScaled([0, 0, 1], y, -y[2]));
  return fromAxes(cross(y, z), y, z, suspension.hardpoints.wheelCentre);
}

/**
 * The wheel-axis frame turned about the wheel axis to a clocking: z outward through the clocked place, x toward lesser
 * clocking, y outboard. Clocking 0 is straight above the axis, positive toward the rear.
 */
export const wheelFromClock = (clockingDeg: number): Rigid =>
  rotationAbout([0, 0, 0], [0, 1, 0], degToRad(-clockingDeg));

export const entries = <K extends PartKind>(corner: Corner, kind: K): Entry<K>[] =>
  entriesOf(corner.parts, kind);

/** ISO offset of a wheel, mm, as given or from backspacing: positive if the mounting face is outboard of the centre plane. */
function wheelOffsetMm(wheel: Entry<'wheel'>): number {
  if (wheel.offset !== undefined) return wheel.offset;
  if (wheel.backspacing === undefined) return 0;
  return wheel.backspacing - (wheel.width + 2 * wheel.lip) / 2;
}

/** Places along the wheel axis: y in the wheel-axis frame, or depths. */
export interface AxialStack extends AxialDepths {
  /** y of the hub's wheel-mounting face. Depths are measured from here: y = hubFaceY + depth. */
  hubFaceY: number;
  /** y of the plane midway between the rim's flanges. */
  rimCentreY(wheel: Entry<'wheel'>): number;
}

/** The stack along the wheel axis of the corner's hub, rotor, spacers, wheel and upright. */
export function axialStack(corner: Corner): AxialStack {
  const wheel = entries(corner, 'wheel')[0];
  const depths = axialDepths(corner.parts);
  const { wheelFaceDepth } = depths;
  const hubFaceY =
    corner.suspension.hubFace ?? (wheel === undefined ? 0 : wheelOffsetMm(wheel)) - wheelFaceDepth;
  return {
    ...depths,
    hubFaceY,
    rimCentreY: (rim) => hubFaceY + wheelFaceDepth - wheelOffsetMm(rim),
  };
}

/** The wheel axis at a pose, vehicle axes of the left corner: a point on it, and the unit direction outboard. */
export interface WheelAxis {
  point: Vec3;
  direction: Vec3;
}

/** The wheel axis at a pose, through the middle of the hub's wheel-mounting face. */
export function wheelAxisAt(corner: Corner, carriers: Carriers): WheelAxis {
  const vehicleFromWheel = compose(carriers.upright, vehicleFromWheelAxis(corner.suspension));
  return {
    point: applyPoint(vehicleFromWheel, [0, axialStack(corner).hubFaceY, 0]),
    direction: applyDirection(vehicleFromWheel, [0, 1, 0]),
  };
}

/** Half the distance between the outer edges of the rim's flanges. */
export const halfOverallWidthMm = (wheel: Entry<'wheel'>): number => wheel.width / 2 + wheel.lip;
