import type { Corner, Entry, PartKind, Suspension } from '../design/schema.ts';
import { applyDirection, applyPoint, compose, fromAxes, type Rigid, rotationAbout } from '../math/rigid.ts';
import { addScaled, cross, normalize, type Vec3 } from '../math/vec.ts';
import type { Carriers } from '../mechanism/pose.ts';
import { spinAxis } from '../mechanism/spinAxis.ts';
import { degToRad } from '../units/angle.ts';

const INCH = 25.4;

/** Frame of the wheel at ride height: y outboard along the spin axis, z up in the wheel's plane, x forward. */
export function vehicleFromWheelAxis(suspension: Suspension): Rigid {
  const y = spinAxis(suspension);
  const z = normalize(addScaled([0, 0, 1], y, -y[2]));
  return fromAxes(cross(y, z), y, z, suspension.hardpoints.wheelCentre);
}

/**
 * The wheel-axis frame turned about the wheel axis to a clocking: z outward through the clocked place, x toward lesser
 * clocking, y still outboard. 0 is straight above the axis, positive toward the rear.
 */
export const wheelFromClock = (clockingDeg: number): Rigid =>
  rotationAbout([0, 0, 0], [0, 1, 0], degToRad(-clockingDeg));

export const entries = <K extends PartKind>(corner: Corner, kind: K): Entry<K>[] =>
  corner.parts.filter((part): part is Entry<K> => part.kind === kind);

/** ISO offset of a wheel: mounting face outboard of the rim's centre plane positive. From backspacing where given. */
export function wheelOffsetMm(wheel: Entry<'wheel'>): number {
  if (wheel.offset !== undefined) return wheel.offset;
  if (wheel.backspacing === undefined) return 0;
  return wheel.backspacing - (wheel.width + 2 * wheel.lip) / 2;
}

/** Where things sit along the wheel axis; y in the wheel-axis frame unless called a depth. */
export interface AxialStack {
  /** y of the hub's wheel-mounting face. Depths are measured from here: y = hubFaceY + depth. */
  hubFaceY: number;
  /** Depth of the wheel's mounting face: rotor hat and wheel spacers lie between. */
  wheelFaceDepth: number;
  /** y of the plane midway between the rim's flanges. */
  rimCentreY(wheel: Entry<'wheel'>): number;
  /** Depth of the two faces of a spacer; spacers of one place are stacked in the order of the file, first at the hub
   * or housing. */
  spacerFaces(spacer: Entry<'spacer'>): { inboard: number; outboard: number };
  /** Depth of the inboard friction face of a rotor, and of its outboard one. */
  rotorFaces(rotor: Entry<'rotor'>): { inboard: number; outboard: number; hatOuter: number };
  /** Depth of the bearing housing's mounting face, and of the upright's hub pad behind its spacers. */
  housingFaceDepth: number;
  uprightFaceDepth: number;
}

/** The stack along the wheel axis of the corner's hub, rotor, spacers, wheel and upright. */
export function axialStack(corner: Corner): AxialStack {
  const hub = entries(corner, 'hub')[0];
  const wheel = entries(corner, 'wheel')[0];
  const hats = entries(corner, 'rotor').filter((rotor) => rotor.mount === 'overStuds');
  const placed = (place: 'wheel' | 'upright') =>
    entries(corner, 'spacer').filter((spacer) => spacer.place === place);
  const thickness = (spacers: Entry<'spacer'>[]) =>
    spacers.reduce((sum, spacer) => sum + spacer.thickness, 0);
  const hatDepth = hats.reduce((sum, rotor) => sum + rotor.hatThickness, 0);
  const wheelFaceDepth = hatDepth + thickness(placed('wheel'));
  const hubFaceY =
    corner.suspension.hubFace ?? (wheel === undefined ? 0 : wheelOffsetMm(wheel)) - wheelFaceDepth;
  const housingFaceDepth = -(hub?.mountDepth ?? 0);
  return {
    hubFaceY,
    wheelFaceDepth,
    rimCentreY: (rim) => hubFaceY + wheelFaceDepth - wheelOffsetMm(rim),
    spacerFaces(spacer) {
      const stack = placed(spacer.place);
      const before = thickness(
        stack.slice(
          0,
          stack.findIndex(({ id }) => id === spacer.id),
        ),
      );
      if (spacer.place === 'wheel')
        return { inboard: hatDepth + before, outboard: hatDepth + before + spacer.thickness };
      const outboard = housingFaceDepth - before;
      return { inboard: outboard - spacer.thickness, outboard };
    },
    rotorFaces(rotor) {
      const hatOuter = rotor.mount === 'overStuds' ? rotor.hatThickness : -(hub?.flangeThickness ?? 0);
      const inboard = hatOuter - rotor.height;
      return { inboard, outboard: inboard + rotor.thickness, hatOuter };
    },
    housingFaceDepth,
    uprightFaceDepth: housingFaceDepth - thickness(placed('upright')),
  };
}

/** The wheel axis as the wheel stands, vehicle axes of the left corner: a point of it, and the unit direction outboard. */
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

/** Specified rim diameter at the heel of the bead seat, mm, by diameter code. ISO 4000-2 Table 4, from memory. */
export function rimDiameterMm(diameterCode: number): number {
  return diameterCode < 16.5 ? INCH * diameterCode - 0.8 : INCH * diameterCode + 4.8;
}
