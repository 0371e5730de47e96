import type { Layout, LayoutJoint } from '../../../src/layouts/layout.ts';
import type { Hardpoints } from '../../../src/layouts/suspension.ts';
import { LEAST_LENGTH_MM } from '../../../src/math/tolerances.ts';
import { add, distance, midpoint } from '../../../src/math/vec.ts';
import { kinematics } from './kinematics.ts';

const joint = (name: string, bolt: string, memberEnd: LayoutJoint['memberEnd']): LayoutJoint => ({
  name,
  housing: 'arm',
  bolt,
  memberEnd,
});
const toKingpin = ({ kingpinLower, kingpinUpper }: Hardpoints) => midpoint(kingpinLower, kingpinUpper);
const toPivots = ({ pivotInboard, pivotOutboard }: Hardpoints) => midpoint(pivotInboard, pivotOutboard);

const PAIRS = [
  ['pivotInboard', 'pivotOutboard'],
  ['kingpinLower', 'kingpinUpper'],
] as const;

/** A single trailing arm that turns about its pivot line, with a kingpin at its end. */
export const trailingArm: Layout = {
  name: 'trailingArm',
  description: 'Kind of suspension: a trailing arm with a kingpin at its end.',
  carriers: {
    chassis: 'the chassis',
    arm: 'the arm',
    upright: 'the upright',
    wheel: 'the wheel',
    damperBody: 'the damper body',
    damperRod: 'the damper rod',
  },
  partGroups: [
    ['Turns with the wheel', ['wheel']],
    ['Upright', ['upright']],
    ['Trailing arm', ['arm']],
    ['Damper', ['damperBody', 'damperRod']],
    ['Chassis', ['chassis']],
  ],
  points: {
    pivotInboard: { carrier: 'chassis', description: "Arm's inboard pivot on the chassis." },
    pivotOutboard: { carrier: 'chassis', description: "Arm's outboard pivot on the chassis." },
    kingpinLower: { carrier: 'arm', description: 'Centre of the lower end of the kingpin.' },
    kingpinUpper: { carrier: 'arm', description: 'Centre of the upper end of the kingpin.' },
  },
  joints: {
    pivotInboard: joint('inboard pivot', 'chassis', toKingpin),
    pivotOutboard: joint('outboard pivot', 'chassis', toKingpin),
    kingpinLower: joint('lower kingpin joint', 'upright', toPivots),
    kingpinUpper: joint('upper kingpin joint', 'upright', toPivots),
  },
  arms: {},
  shieldingArm: undefined,
  tieRod: undefined,
  upright: undefined,
  kingpin: { lower: 'kingpinLower', upper: 'kingpinUpper' },
  pivots: [
    { between: ['chassis', 'arm'], at: 'pivotInboard', to: 'pivotOutboard' },
    { between: ['arm', 'upright'], at: 'kingpinLower', to: 'kingpinUpper' },
  ],
  kept: [
    ...PAIRS[1].flatMap((at) => [
      { a: at, onA: 'upright', b: at, onB: 'arm' },
      ...PAIRS[0].map((pivot) => ({ a: at, onA: 'arm', b: pivot, onB: 'chassis' })),
      { a: at, onA: 'upright', b: 'wheelCentre', onB: 'upright' },
    ]),
  ],
  damperOn: ['arm', 'upright'],
  steering: {
    noun: 'kingpin',
    quantity: 'angle',
    key: 'kingpinDeg',
    outboard: 'outboardDeg',
    inboard: 'inboardDeg',
    description: 'Rotation of the upright about the kingpin.',
    fields: ({ degrees }) => ({
      outboardDeg: degrees(0, 60, "Rotation to the lock that turns the wheel's front edge outboard."),
      inboardDeg: degrees(0, 60, "Rotation to the lock that turns the wheel's front edge inboard."),
    }),
  },
  armAngleName: 'Arm about its pivot line',
  tiltNote: '',
  ends: {
    closures: [],
    overCentre: 'The arm goes over centre: turning it further would move the wheel centre back.',
    steeredTooFar: 'The wheel is steered so far that turning the arm no longer lifts its centre.',
  },
  pointProblems: (points) =>
    PAIRS.filter(([a, b]) => distance(points[a], points[b]) < LEAST_LENGTH_MM).map(([a, b]) => ({
      at: b,
      message: `is the same point as ${a}; a line needs two points`,
    })),
  kinematics,
  chassisPoint: ({ pivotInboard }) => add(pivotInboard, [0, -60, 0]),
  startingDamper(points) {
    const armMount = midpoint(toPivots(points), toKingpin(points));
    return { chassisMount: add(armMount, [0, 0, 350]), armMount, on: 'arm' };
  },
  newCorner: undefined,
};
