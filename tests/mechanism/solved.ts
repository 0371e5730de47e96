import { expect } from 'vitest';
import { type Mechanism, solvePose } from '../../src/mechanism/mechanism.ts';
import type { SolvedPose } from '../../src/mechanism/pose.ts';

/** The pose, which must be reached. `where` names the case in the failure message. */
export function solved(mechanism: Mechanism, travelMm: number, steer: number, where = ''): SolvedPose {
  const pose = solvePose(mechanism, travelMm, steer);
  if (pose.kind === 'solved') return pose;
  return expect.fail(`${where} travel ${travelMm} mm, steer ${steer}: ${pose.reason}`);
}
