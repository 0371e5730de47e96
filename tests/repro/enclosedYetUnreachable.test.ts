import { expect, it } from 'vitest';
import { applyPoint } from '../../src/math/rigid.ts';
import { distance } from '../../src/math/vec.ts';
import { prepareMechanism, solvePose } from '../../src/mechanism/mechanism.ts';
import { poseByFixedLengths } from '../oracles/fixedLengths.ts';
import { lockingCorner } from '../oracles/lockingCorner.ts';

/**
 * Poses at extreme lock in enclosed cells. The mechanism reaches them at their travel. But steering with the lower
 * arm fixed, at ride height or at their travel straight ahead, meets the fold of the tie rod first. They were
 * reported as `unreachable`.
 */
it.each([
  { seed: 40, travelMm: 12.55231817008594, steer: -0.9296874999826572 },
  { seed: 40, travelMm: 6.25, steer: -0.921875 },
  { seed: 40, travelMm: 4.687500005884394, steer: -0.921875 },
  { seed: 40, travelMm: 3.125, steer: -0.9218749999731254 },
])('reaches the pose of corner $seed at $travelMm mm, steer $steer', ({ seed, travelMm, steer }) => {
  const suspension = lockingCorner(seed);
  const pose = solvePose(prepareMechanism(suspension), travelMm, steer);
  if (pose.kind !== 'solved') throw new Error(pose.reason);
  expect(pose.residualMm).toBeLessThan(1e-9);
  const { rack, upright, lowerArm } = pose.carriers;
  const slow = poseByFixedLengths(suspension, travelMm, [rack[3], rack[7], rack[11]], {
    walk: 400,
    first: 'travel',
  });
  expect(slow.errorMm).toBeLessThan(1e-9);
  const { hardpoints } = suspension;
  expect(distance(applyPoint(upright, hardpoints.tieRodOuter), slow.tieRodOuter)).toBeLessThan(1e-7);
  expect(distance(applyPoint(lowerArm, hardpoints.lowerJoint), slow.lowerJoint)).toBeLessThan(1e-7);
});
