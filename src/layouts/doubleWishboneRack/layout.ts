import { add, midpoint } from '../../math/vec.ts';
import type { Layout, LayoutSteering } from '../layout.ts';
import { kinematics } from './kinematics.ts';
import { ARMS, CARRIERS, JOINTS, KEPT, PART_GROUPS, PIVOTS, POINTS } from './members.ts';
import { pointProblems } from './problems.ts';

const steering: LayoutSteering = {
  noun: 'rack',
  quantity: 'length',
  key: 'rackMm',
  outboard: 'rackOutboard',
  inboard: 'rackInboard',
  description: 'Travel and direction of the steering rack.',
  fields: ({ extent, direction }) => ({
    rackOutboard: extent(
      "Rack travel from straight ahead to the lock that turns the wheel's front edge outboard. Use a tape on the end of the rack.",
    ),
    rackInboard: extent(
      "Rack travel from straight ahead to the lock that turns the wheel's front edge inboard. Use a tape on the end of the rack.",
    ),
    rackDirection: direction(
      'Line along which the rack slides, in either sense. 0, 1, 0 is straight across the vehicle. Use a square or a protractor.',
    ).default([0, 1, 0]),
  }),
};

/** Double wishbones with rack steering. */
export const doubleWishboneRack: Layout = {
  name: 'doubleWishboneRack',
  description: 'Kind of suspension: double wishbones and rack steering.',
  carriers: CARRIERS,
  partGroups: PART_GROUPS,
  points: POINTS,
  joints: JOINTS,
  arms: ARMS,
  shieldingArm: 'lower',
  tieRod: { inner: 'tieRodInner', outer: 'tieRodOuter', carrier: 'tieRod' },
  upright: { lower: 'lowerJoint', upper: 'upperJoint', steering: 'tieRodOuter' },
  kingpin: { lower: 'lowerJoint', upper: 'upperJoint' },
  pivots: PIVOTS,
  kept: KEPT,
  damperOn: ['lowerArm', 'upperArm', 'upright'],
  steering,
  armAngleName: 'Lower arm about its pivot line',
  tiltNote: 'A tie rod is assumed not to turn about its own axis.',
  ends: {
    closures: [
      {
        stretched: 'The upper arm cannot reach: it is stretched out in line with the upright.',
        folded: 'The upper arm cannot follow: it is folded in line with the upright.',
      },
      {
        stretched: 'The tie rod cannot reach: it is stretched out in line with the steering arm.',
        folded: 'The tie rod cannot follow: it is folded in line with the steering arm.',
      },
    ],
    overCentre: 'The arms go over centre: turning them further would move the wheel centre back.',
    steeredTooFar: 'The wheel is steered so far that turning the arms no longer lifts its centre.',
  },
  pointProblems,
  kinematics,
  chassisPoint: ({ lowerArmFront }) => add(lowerArmFront, [0, -60, 0]),
  startingDamper({ lowerArmFront, lowerArmRear, lowerJoint, upperJoint }) {
    const pivots = midpoint(lowerArmFront, lowerArmRear);
    return {
      chassisMount: add(pivots, [0, 80, upperJoint[2] - pivots[2] + 120]),
      armMount: midpoint(pivots, lowerJoint),
      on: 'lowerArm',
    };
  },
  // Loaded on demand, so that the first picture does not wait for it.
  newCorner: async () => (await import('./newCorner.ts')).newCorner,
};
