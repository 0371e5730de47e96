import { cosineRate, meetingCosine } from '../../math/circleSphere.ts';
import type { NumberKind } from '../../math/numbers.ts';
import { applyPoint } from '../../math/rigid.ts';
import { addScaled, dot, scale, type Vec3 } from '../../math/vec.ts';
import type { Kinematics, SolverRates } from '../kinematics.ts';
import {
  type LinkageRates,
  linkageMembers,
  linkageRates,
  type PosedLinkage,
  poseLinkage,
} from './closedForm.ts';
import { armAngleAt, linkageOf, type RackLinkage } from './linkage.ts';
import { rangeProblems } from './problems.ts';

const STILL: Vec3 = [0, 0, 0];

/** The closures are the upper arm, then the tie rod. */
function solverRates(
  { steeringArm, rackDirection }: RackLinkage,
  { kingpin, toWheel, upper, tieRod }: PosedLinkage<NumberKind>,
  rates: LinkageRates<NumberKind>,
): SolverRates {
  const centreRate = addScaled(rates.lowerJoint, rates.kingpin, steeringArm.alongMm);
  const rackSpin = dot(rates.rod, rackDirection) / rates.perSpin;
  return {
    riseInputRate: rackSpin * (kingpin[0] * toWheel[1] - kingpin[1] * toWheel[0]),
    closures: [
      {
        cosine: meetingCosine(upper),
        armRate: cosineRate(upper, rates.lowerJoint, STILL),
        inputRate: 0,
      },
      {
        cosine: meetingCosine(tieRod),
        armRate: cosineRate(tieRod, scale(centreRate, -1), rates.kingpin),
        inputRate: cosineRate(tieRod, rackDirection, STILL),
      },
    ],
  };
}

/** Travel turns the lower arm; the steering input is the rack's displacement along its direction, mm. */
export const kinematics: Kinematics<RackLinkage> = {
  prepare: linkageOf,
  rangeProblems,
  inputAt: ({ rackSense, rackOutboardMm, rackInboardMm }, steer) =>
    rackSense * steer * (steer > 0 ? rackOutboardMm : rackInboardMm),
  pose: poseLinkage,
  rates: linkageRates,
  members: linkageMembers,
  solverRates,
  armRad: ({ lower, hardpoints }, members) =>
    armAngleAt(lower, applyPoint(members.lowerArm, hardpoints.lowerJoint)),
};
