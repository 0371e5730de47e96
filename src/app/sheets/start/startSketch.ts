import { defaultNumber } from '../../../design/fields.ts';
import type { NewPoints } from '../../../layouts/newCorner.ts';
import type { Vec3 } from '../../../math/vec.ts';
import { usualRotorHeightMm } from '../../../parts/rotor/workbench.ts';
import {
  across,
  type Point,
  rectangle,
  type Sketch,
  type SketchDimension,
  upward,
} from '../parts/sketch/sketch.ts';
import { type QuestionKey, START } from './questions.ts';
import { newCornerSizes, type Sizes } from './sizes.ts';

/** Gap between a part and a dimension beside it, mm. */
const ASIDE = 14;
const FLANGE_MM = 12;
const RIM_EDGE_MM = 17.5;
const BARREL_MM = 5;
const JOINT_MM = 12;

const fromBehind = ([, y, z]: Vec3): Point => [y, z];

/** A new corner from behind, cut through its wheel axis: outboard to the right, the ground at y = 0. */
export function startSketch(sizes: Sizes, points: NewPoints): Sketch {
  const { hardpoints } = points;
  const [cy, cz] = fromBehind(hardpoints.wheelCentre);
  const face = cy + sizes.wheelOffset;
  const hatMm = defaultNumber('rotor', 'hatThickness');
  const lipMm = defaultNumber('wheel', 'lip');
  const hub = face - hatMm;
  const half = sizes.width / 2;
  const [inboard, outboard] = [cy - half - lipMm, cy + half + lipMm];
  const seat = sizes.diameterCode * 12.7;
  const rotor = sizes.rotorDiameter / 2;
  const rotorFace = hub - usualRotorHeightMm(sizes.rotorThickness) + hatMm;
  const rotorOut = rotorFace + sizes.rotorThickness;
  const [caliperIn, caliperOut] = [rotorFace - sizes.caliperInboard, rotorOut + sizes.caliperOutboard];
  const own = START.sketch(newCornerSizes(sizes), points);
  const joints = own.joints.map(fromBehind);
  const inmost = Math.min(...joints.map(([x]) => x));
  /** A rectangle above the wheel axis and its mirror image below. */
  const both = (x0: number, x1: number, r0: number, r1: number) => [
    rectangle(x0, x1, cz + r0, cz + r1),
    rectangle(x0, x1, cz - r1, cz - r0),
  ];
  const diameter = (field: QuestionKey, mm: number, x: number) => upward(field, cz - mm / 2, cz + mm / 2, x);
  return {
    views: [],
    title: 'The corner from behind, cut through the wheel axis, outboard to the right',
    outlines: [
      ...both(cy - 0.6 * sizes.width, cy + 0.6 * sizes.width, seat, sizes.tyreRadius),
      ...both(inboard, outboard, seat - BARREL_MM, seat),
      ...both(inboard, inboard + lipMm, seat - BARREL_MM, seat + RIM_EDGE_MM),
      ...both(outboard - lipMm, outboard, seat - BARREL_MM, seat + RIM_EDGE_MM),
      rectangle(face, face + FLANGE_MM, cz - seat + BARREL_MM, cz + seat - BARREL_MM),
      rectangle(hub - FLANGE_MM, hub, cz - sizes.flangeDiameter / 2, cz + sizes.flangeDiameter / 2),
      ...both(rotorFace, rotorOut, 0.6 * rotor, rotor),
      rectangle(caliperIn, caliperOut, cz + 0.7 * rotor, cz + sizes.caliperRadius),
      ...own.members.map((member) => member.map(fromBehind)),
      ...joints.map(([x, y]) =>
        rectangle(x - JOINT_MM / 2, x + JOINT_MM / 2, y - JOINT_MM / 2, y + JOINT_MM / 2),
      ),
    ],
    axes: [
      [
        [inmost - ASIDE, 0],
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
      ...own.dimensions.map(
        ({ key, from, to }): SketchDimension => ({ field: key, from: fromBehind(from), to: fromBehind(to) }),
      ),
      upward('bump', cz, cz + sizes.bump, outboard + 4 * ASIDE),
      upward('droop', cz - sizes.droop, cz, outboard + 4 * ASIDE),
    ],
  };
}
