import type { Suspension } from '../layouts/suspension.ts';
import { prepareMechanism, solvePose } from './mechanism.ts';
import type { Carriers } from './pose.ts';

const TRAVEL_STEPS = 12;
const STEERS = [-1, -0.5, 0, 0.5, 1];

/**
 * Carriers at the reachable poses of a coarse grid of travel and steer. For initial dimensions only, never for a
 * finding. Throws DesignProblems if the suspension cannot be posed.
 */
export function sampledPoses(suspension: Suspension): Carriers[] {
  const mechanism = prepareMechanism(suspension);
  const { bump, droop } = suspension.travel;
  return Array.from({ length: TRAVEL_STEPS + 1 }, (_, i) => -droop + ((bump + droop) * i) / TRAVEL_STEPS)
    .flatMap((travelMm) => STEERS.map((steer) => solvePose(mechanism, travelMm, steer)))
    .flatMap((pose) => (pose.kind === 'solved' ? [pose.carriers] : []));
}
