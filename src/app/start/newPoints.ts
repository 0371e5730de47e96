import type { Hardpoints } from '../../design/schema.ts';
import type { Vec3 } from '../../math/vec.ts';
import { addScaled, lerp } from '../../math/vec.ts';
import type { LengthUnit } from '../../report/figures.ts';
import { roundMm } from './guess.ts';
import { HAT_MM, type Sizes } from './sizes.ts';

/** Where the points of a new corner stand, mm, vehicle axes; and what of the parts their places hang on. */
export interface NewPoints {
  hardpoints: Readonly<Record<keyof Hardpoints, Vec3>>;
  chassisMount: Vec3;
  armMount: Vec3;
  /** Of the damper. */
  bodyLength: number;
  /** Bearing housing's mounting face behind the wheel's mounting face. */
  mountDepth: number;
}

/** The lower pivots from the centre line, and the joint inboard of the upright's pad: to start from. */
const PIVOT_Y_MM = 300;
const JOINT_INBOARD_MM = 42;
/** Top of the kingpin inboard, and rearward, of its foot, over its length. */
const INWARD = 0.1;
const REARWARD = 0.07;
/** How much of the kingpin is below the wheel axis. */
const BELOW = 0.47;
/** The tie rod's height between the joints. */
const TIE_ROD_AT = 0.32;
/** The damper's mount along the lower arm, and how much of the wheel's travel the damper sees at most. */
const DAMPER_AT = 0.55;
const DAMPER_RATIO = 0.7;

/** Points that keep what was measured: the kingpin's length, and each arm's from its pivot line to its joint. */
export function pointsOf(sizes: Sizes, unit: LengthUnit): NewPoints {
  const round = (mm: number) => roundMm(mm, unit);
  const { kingpin, lowerArm, upperArm, bump, droop, rack } = sizes;
  const mountDepth = round(75);
  const centreZ = round(sizes.tyreRadius);
  const pivotY = round(PIVOT_Y_MM);
  const lowerJoint: Vec3 = [0, pivotY + lowerArm, centreZ - round(BELOW * kingpin)];
  const centreY = lowerJoint[1] + round(JOINT_INBOARD_MM) + mountDepth - sizes.wheelOffset + HAT_MM;
  const [back, inward] = [round(REARWARD * kingpin), round(INWARD * kingpin)];
  const upperJoint: Vec3 = [
    -back,
    lowerJoint[1] - inward,
    lowerJoint[2] + Math.sqrt(kingpin ** 2 - back ** 2 - inward ** 2),
  ];
  const fall = round(0.05 * upperArm);
  const upperPivot: Vec3 = [0, upperJoint[1] - Math.sqrt(upperArm ** 2 - fall ** 2), upperJoint[2] - fall];
  const lowerPivot: Vec3 = [0, pivotY, lowerJoint[2]];
  const ahead = round(Math.max(115, 1.9 * rack));
  const along = (from: Vec3, to: Vec3, outboard: number): Vec3 => {
    const [, y, z] = lerp(from, to, TIE_ROD_AT);
    return [ahead, round(y) + outboard, round(z)];
  };
  const beside = (pivot: Vec3, x: number): Vec3 => [round(x), pivot[1], pivot[2]];

  const bodyLength = round(1.2 * DAMPER_RATIO * (bump + droop) + 40);
  const length = bodyLength + DAMPER_RATIO * bump + 60;
  const armMount: Vec3 = [-round(10), round(pivotY + DAMPER_AT * lowerArm), lowerJoint[2] + round(15)];
  const lean = Math.min(0.35 * lowerArm, 0.5 * length);
  const chassisMount = addScaled(armMount, [0, -lean, Math.sqrt(length ** 2 - lean ** 2)], 1);
  return {
    hardpoints: {
      lowerArmFront: beside(lowerPivot, 150),
      lowerArmRear: beside(lowerPivot, -180),
      lowerJoint,
      upperArmFront: beside(upperPivot, 110),
      upperArmRear: beside(upperPivot, -130),
      upperJoint,
      tieRodInner: along(lowerPivot, upperPivot, 0),
      tieRodOuter: along(lowerJoint, upperJoint, round(8)),
      wheelCentre: [0, round(centreY), centreZ],
    },
    chassisMount: [armMount[0], round(chassisMount[1]), round(chassisMount[2])],
    armMount,
    bodyLength,
    mountDepth,
  };
}
