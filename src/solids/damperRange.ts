import type { Suspension } from '../design/schema.ts';
import { applyPoint } from '../math/rigid.ts';
import { distance } from '../math/vec.ts';
import { prepareMechanism, solvePose } from '../mechanism/mechanism.ts';

const TRAVEL_STEPS = 12;
const STEERS = [-1, -0.5, 0, 0.5, 1];

/**
 * The shortest and longest distance between a damper's mounts over the suspension's travel and lock, mm, of the poses
 * that are reached, on a grid. It serves to divide a damper into body and rod, never as a finding. Throws
 * DesignProblems where the suspension cannot be posed, and an Error where it has no damper.
 */
export function damperRangeMm(suspension: Suspension): { shortest: number; ride: number; longest: number } {
  const mounts = suspension.damper;
  if (mounts === undefined) {
    throw new Error(
      'a damper needs its mounts: give suspension.damper with chassisMount, armMount and the part it sits on',
    );
  }
  const mechanism = prepareMechanism(suspension);
  const { bump, droop } = suspension.travel;
  const ride = distance(mounts.chassisMount, mounts.armMount);
  let [shortest, longest] = [ride, ride];
  for (let i = 0; i <= TRAVEL_STEPS; i++) {
    const travelMm = -droop + ((bump + droop) * i) / TRAVEL_STEPS;
    for (const steer of STEERS) {
      const pose = solvePose(mechanism, travelMm, steer);
      if (pose.kind !== 'solved') continue;
      const lengthMm = distance(mounts.chassisMount, applyPoint(pose.carriers[mounts.on], mounts.armMount));
      shortest = Math.min(shortest, lengthMm);
      longest = Math.max(longest, lengthMm);
    }
  }
  return { shortest, ride, longest };
}
