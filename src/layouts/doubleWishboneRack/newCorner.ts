import { addScaled, lerp, type Vec3 } from '../../math/vec.ts';
import type {
  LayoutQuestion,
  NewCornerOf,
  NewCornerSizes,
  NewPoints,
  SuspensionSketch,
} from '../newCorner.ts';

/** Starting values: the lower pivots from the centre line, and the lower joint inboard of the upright's pad. */
const PIVOT_Y_MM = 300;
const JOINT_INBOARD_MM = 42;
/** Lean of the kingpin's top inboard and rearward, as a fraction of its length. */
const INWARD = 0.1;
const REARWARD = 0.07;
/** Fraction of the kingpin below the wheel axis. */
const BELOW = 0.47;
/** Height of the tie rod, as a fraction of the way from the lower to the upper joint. */
const TIE_ROD_AT = 0.32;
/** Damper mount as a fraction of the lower arm, and largest ratio of damper stroke to wheel travel. */
const DAMPER_AT = 0.55;
const DAMPER_RATIO = 0.7;

const arm = (key: string, label: string): LayoutQuestion => ({
  key,
  label,
  group: 'Upright and arms',
  paths: [],
  help: 'Line of its inner pivots to the centre of its joint.',
});

const QUESTIONS: readonly LayoutQuestion[] = [
  {
    key: 'kingpin',
    label: 'Kingpin length',
    group: 'Upright and arms',
    paths: [],
    help: 'Centre of the lower joint to that of the upper.',
  },
  arm('lowerArm', 'Lower arm'),
  arm('upperArm', 'Upper arm'),
  {
    key: 'rack',
    label: 'Rack travel',
    group: 'Travel and lock',
    paths: ['suspension.steering.rackOutboard', 'suspension.steering.rackInboard'],
    help: 'Rack travel from straight ahead to one lock. The other lock is assumed equal.',
  },
];

/** Points with the given lengths of the kingpin and of each arm from its pivot line to its joint. */
function pointsOf(sizes: NewCornerSizes, round: (mm: number) => number): NewPoints {
  const { bump, droop, mountDepth } = sizes;
  const { kingpin, lowerArm, upperArm, rack } = sizes.own;
  const centreZ = round(sizes.tyreRadius);
  const pivotY = round(PIVOT_Y_MM);
  const lowerJoint: Vec3 = [0, pivotY + lowerArm, centreZ - round(BELOW * kingpin)];
  const centreY =
    lowerJoint[1] + round(JOINT_INBOARD_MM) + mountDepth - sizes.wheelOffset + sizes.hatThickness;
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
  };
}

function sketchOf({ own }: NewCornerSizes, { hardpoints: h }: NewPoints): SuspensionSketch {
  return {
    members: [
      [h.lowerJoint, h.upperJoint],
      [h.lowerArmFront, h.lowerJoint],
      [h.upperArmFront, h.upperJoint],
    ],
    joints: [h.lowerJoint, h.upperJoint, h.lowerArmFront, h.upperArmFront, h.tieRodInner],
    dimensions: [
      { key: 'kingpin', from: h.lowerJoint, to: h.upperJoint },
      { key: 'lowerArm', from: h.lowerArmFront, to: h.lowerJoint },
      { key: 'upperArm', from: h.upperArmFront, to: h.upperJoint },
      { key: 'rack', from: h.tieRodInner, to: addScaled(h.tieRodInner, [0, 1, 0], own.rack) },
    ],
  };
}

/** A new corner of double wishbones with a rack. Usual sizes, mm: common practice, no source. */
export const newCorner: NewCornerOf = {
  questions: QUESTIONS,
  usual(given, barrelRadius, round) {
    const lowerArm = given.lowerArm ?? round(380);
    return {
      kingpin: given.kingpin ?? round(Math.min(300, 1.5 * barrelRadius)),
      lowerArm,
      upperArm: given.upperArm ?? round(0.8 * lowerArm),
      rack: given.rack ?? round(50),
    };
  },
  points: pointsOf,
  sketch: sketchOf,
  joints: [
    { id: 'lowerJoint', label: 'Lower joint', at: 'lowerJoint', form: 'cup' },
    { id: 'upperJoint', label: 'Upper joint', at: 'upperJoint', form: 'cup' },
    { id: 'tieRodEnd', label: 'Tie-rod end', at: 'tieRodOuter', form: 'rodEnd' },
    { id: 'tieRodInnerEnd', label: 'Inner tie-rod end', at: 'tieRodInner', form: 'rodEnd', bolt: [1, 0, 0] },
  ],
  arms: [
    { id: 'lowerArm', label: 'Lower arm', arm: 'lower' },
    { id: 'upperArm', label: 'Upper arm', arm: 'upper' },
  ],
  damperOn: 'lowerArm',
  steering: {
    asked: { rackOutboard: 'rack', rackInboard: 'rack' },
    fixed: { rackDirection: [0, 1, 0] },
  },
};
