import { midpoint } from '../../math/vec.ts';
import type { KeptDistance, LayoutArm, LayoutJoint, LayoutPivot, LayoutPoint } from '../layout.ts';
import type { Hardpoints } from '../suspension.ts';

export const CARRIERS = {
  chassis: 'the chassis',
  rack: 'the rack',
  lowerArm: 'the lower arm',
  upperArm: 'the upper arm',
  upright: 'the upright',
  wheel: 'the wheel',
  tieRod: 'the tie rod',
  damperBody: 'the damper body',
  damperRod: 'the damper rod',
} as const;

export const PART_GROUPS = [
  ['Turns with the wheel', ['wheel']],
  ['Upright', ['upright']],
  ['Lower arm', ['lowerArm']],
  ['Upper arm', ['upperArm']],
  ['Tie rod and rack', ['tieRod', 'rack']],
  ['Damper', ['damperBody', 'damperRod']],
  ['Chassis', ['chassis']],
] as const;

const point = (carrier: keyof typeof CARRIERS, description: string): LayoutPoint => ({
  carrier,
  description,
});
const pivot = (arm: string, end: string) =>
  point('chassis', `${arm} arm's ${end} pivot on the chassis, at the middle of its bushing or joint.`);

export const POINTS = {
  lowerArmFront: pivot('Lower', 'front'),
  lowerArmRear: pivot('Lower', 'rear'),
  lowerJoint: point('lowerArm', 'Centre of the joint between lower arm and upright.'),
  upperArmFront: pivot('Upper', 'front'),
  upperArmRear: pivot('Upper', 'rear'),
  upperJoint: point('upperArm', 'Centre of the joint between upper arm and upright.'),
  tieRodInner: point('rack', 'Centre of the joint between rack and tie rod.'),
  tieRodOuter: point('upright', 'Centre of the joint between tie rod and upright.'),
};

const joint = (
  name: string,
  housing: keyof typeof CARRIERS,
  bolt: keyof typeof CARRIERS,
  memberEnd: LayoutJoint['memberEnd'],
): LayoutJoint => ({ name, housing, bolt, memberEnd });
const toLower = (points: Hardpoints) => points.lowerJoint;
const toUpper = (points: Hardpoints) => points.upperJoint;

/** The joints at the upright belong to the arms and the tie rod. */
export const JOINTS = {
  lowerJoint: joint('lower joint', 'lowerArm', 'upright', (points) =>
    midpoint(points.lowerArmFront, points.lowerArmRear),
  ),
  upperJoint: joint('upper joint', 'upperArm', 'upright', (points) =>
    midpoint(points.upperArmFront, points.upperArmRear),
  ),
  tieRodInner: joint('inner tie-rod joint', 'tieRod', 'rack', (points) => points.tieRodOuter),
  tieRodOuter: joint('outer tie-rod joint', 'tieRod', 'upright', (points) => points.tieRodInner),
  lowerArmFront: joint('front pivot of the lower arm', 'lowerArm', 'chassis', toLower),
  lowerArmRear: joint('rear pivot of the lower arm', 'lowerArm', 'chassis', toLower),
  upperArmFront: joint('front pivot of the upper arm', 'upperArm', 'chassis', toUpper),
  upperArmRear: joint('rear pivot of the upper arm', 'upperArm', 'chassis', toUpper),
};

export const ARMS: Readonly<Record<'lower' | 'upper', LayoutArm>> = {
  lower: {
    front: 'lowerArmFront',
    rear: 'lowerArmRear',
    joint: 'lowerJoint',
    carrier: 'lowerArm',
    usual: { tubeDiameter: 28, pivotDiameter: 40, pivotLength: 45 },
  },
  upper: {
    front: 'upperArmFront',
    rear: 'upperArmRear',
    joint: 'upperJoint',
    carrier: 'upperArm',
    usual: { tubeDiameter: 24, pivotDiameter: 34, pivotLength: 38.25 },
  },
};

export const PIVOTS: readonly LayoutPivot[] = [
  { between: ['chassis', 'lowerArm'], at: 'lowerArmFront', to: 'lowerArmRear' },
  { between: ['chassis', 'upperArm'], at: 'upperArmFront', to: 'upperArmRear' },
  { between: ['lowerArm', 'upright'], at: 'lowerJoint' },
  { between: ['upperArm', 'upright'], at: 'upperJoint' },
  { between: ['tieRod', 'upright'], at: 'tieRodOuter' },
  { between: ['rack', 'tieRod'], at: 'tieRodInner' },
];

const kept = (a: string, onA: string, b: string, onB: string): KeptDistance => ({ a, onA, b, onB });
const within = (a: string, b: string) => kept(a, 'upright', b, 'upright');
const shared = (at: string, one: string, other: string) => kept(at, one, at, other);

/** Both legs of each arm, the tie rod, the upright, and the joints that two members share. */
export const KEPT: readonly KeptDistance[] = [
  kept('lowerJoint', 'upright', 'lowerArmFront', 'chassis'),
  kept('lowerJoint', 'upright', 'lowerArmRear', 'chassis'),
  kept('upperJoint', 'upright', 'upperArmFront', 'chassis'),
  kept('upperJoint', 'upright', 'upperArmRear', 'chassis'),
  kept('tieRodOuter', 'upright', 'tieRodInner', 'rack'),
  within('lowerJoint', 'upperJoint'),
  within('lowerJoint', 'tieRodOuter'),
  within('upperJoint', 'tieRodOuter'),
  within('lowerJoint', 'wheelCentre'),
  within('upperJoint', 'wheelCentre'),
  within('tieRodOuter', 'wheelCentre'),
  shared('lowerJoint', 'upright', 'lowerArm'),
  shared('upperJoint', 'upright', 'upperArm'),
  shared('tieRodOuter', 'upright', 'tieRod'),
  shared('tieRodInner', 'rack', 'tieRod'),
];
