import type { Vec3 } from '../../math/vec.ts';
import {
  across,
  type Point,
  rectangle,
  type Sketch,
  type SketchDimension,
  upward,
} from '../bench/sketch/sketch.ts';
import type { NewPoints } from './newPoints.ts';
import type { Asked } from './questions.ts';
import { HAT_MM, LIP_MM, type Sizes, usualRotorHeightMm } from './sizes.ts';

/** Between a part and a dimension beside it, mm. */
const ASIDE = 14;
const FLANGE_MM = 12;
const RIM_EDGE_MM = 17.5;
const BARREL_MM = 5;
const JOINT_MM = 12;

const seenFromBehind = ([, y, z]: Vec3): Point => [y, z];

/** A new corner cut through its wheel axis and seen from behind: outboard to the right, the ground below. */
export function startSketch(sizes: Sizes, { hardpoints }: NewPoints): Sketch {
  const [cy, cz] = seenFromBehind(hardpoints.wheelCentre);
  const face = cy + sizes.wheelOffset;
  const hub = face - HAT_MM;
  const half = sizes.width / 2;
  const [inboard, outboard] = [cy - half - LIP_MM, cy + half + LIP_MM];
  const seat = sizes.diameterCode * 12.7;
  const rotor = sizes.rotorDiameter / 2;
  const rotorFace = hub - usualRotorHeightMm(sizes.rotorThickness) + HAT_MM;
  const rotorOut = rotorFace + sizes.rotorThickness;
  const [caliperIn, caliperOut] = [rotorFace - sizes.caliperInboard, rotorOut + sizes.caliperOutboard];
  const [lower, upper] = [seenFromBehind(hardpoints.lowerJoint), seenFromBehind(hardpoints.upperJoint)];
  const [lowerPivot, upperPivot] = [
    seenFromBehind(hardpoints.lowerArmFront),
    seenFromBehind(hardpoints.upperArmFront),
  ];
  const rack = seenFromBehind(hardpoints.tieRodInner);
  /** Above and below the wheel axis. */
  const both = (x0: number, x1: number, r0: number, r1: number) => [
    rectangle(x0, x1, cz + r0, cz + r1),
    rectangle(x0, x1, cz - r1, cz - r0),
  ];
  const diameter = (field: Asked, mm: number, x: number) => upward(field, cz - mm / 2, cz + mm / 2, x);
  const between = (field: Asked, from: Point, to: Point): SketchDimension => ({ field, from, to });
  return {
    views: [],
    title: 'The corner from behind, cut through the wheel axis, outboard to the right',
    outlines: [
      ...both(cy - 0.6 * sizes.width, cy + 0.6 * sizes.width, seat, sizes.tyreRadius),
      ...both(inboard, outboard, seat - BARREL_MM, seat),
      ...both(inboard, inboard + LIP_MM, seat - BARREL_MM, seat + RIM_EDGE_MM),
      ...both(outboard - LIP_MM, outboard, seat - BARREL_MM, seat + RIM_EDGE_MM),
      rectangle(face, face + FLANGE_MM, cz - seat + BARREL_MM, cz + seat - BARREL_MM),
      rectangle(hub - FLANGE_MM, hub, cz - sizes.flangeDiameter / 2, cz + sizes.flangeDiameter / 2),
      ...both(rotorFace, rotorOut, 0.6 * rotor, rotor),
      rectangle(caliperIn, caliperOut, cz + 0.7 * rotor, cz + sizes.caliperRadius),
      [lower, upper],
      [lowerPivot, lower],
      [upperPivot, upper],
      ...[lower, upper, lowerPivot, upperPivot, rack].map(([x, y]) =>
        rectangle(x - JOINT_MM / 2, x + JOINT_MM / 2, y - JOINT_MM / 2, y + JOINT_MM / 2),
      ),
    ],
    axes: [
      [
        [lowerPivot[0] - ASIDE, 0],
        [outboard + 5 * ASIDE, 0],
      ],
      [
        [inboard - ASIDE, cz],
        [outboard + ASIDE, cz],
      ],
    ],
    dimensions: [
      diameter('diameterCode', 2 * seat, outboard + ASIDE),
      across('width', cy - half, cy + half, cz + sizes.tyreRadius + ASIDE),
      ...(sizes.backspacing === undefined
        ? [across('offset', cy, face, cz - 0.8 * seat)]
        : [across('backspacing', face - sizes.backspacing, face, cz - 0.8 * seat)]),
      diameter('flangeDiameter', sizes.flangeDiameter, hub - FLANGE_MM / 2),
      diameter('boltCircle', sizes.boltCircle, hub),
      diameter('pilotDiameter', sizes.pilotDiameter, hub + ASIDE / 2),
      diameter('rotorDiameter', sizes.rotorDiameter, (rotorFace + rotorOut) / 2),
      across('rotorThickness', rotorFace, rotorOut, cz - rotor - ASIDE / 2),
      upward('caliperRadius', cz, cz + sizes.caliperRadius, (caliperIn + rotorFace) / 2),
      across('caliperOutboard', rotorOut, caliperOut, cz + sizes.caliperRadius + ASIDE / 2),
      across('caliperInboard', caliperIn, rotorFace, cz + sizes.caliperRadius + ASIDE / 2),
      between('kingpin', lower, upper),
      between('lowerArm', lowerPivot, lower),
      between('upperArm', upperPivot, upper),
      upward('bump', cz, cz + sizes.bump, outboard + 4 * ASIDE),
      upward('droop', cz - sizes.droop, cz, outboard + 4 * ASIDE),
      across('rack', rack[0], rack[0] + sizes.rack, rack[1]),
    ],
  };
}
