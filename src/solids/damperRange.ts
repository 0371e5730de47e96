import type { Suspension } from '../design/schema.ts';
import { distance } from '../math/vec.ts';
import { damperLengthMm } from '../mechanism/damperLength.ts';
import { sampledPoses } from '../mechanism/sampledPoses.ts';
import { readWhole } from './trackedReads.ts';

/**
 * Shortest, ride-height and longest distance between a damper's mounts over travel and lock, mm, at the reachable poses of
 * a grid. Used to divide a damper into body and rod, never as a finding. Throws DesignProblems if the suspension cannot be
 * posed, and an Error if it has no damper.
 */
export function damperRangeMm(suspension: Suspension): { shortest: number; ride: number; longest: number } {
  const mounts = suspension.damper;
  if (mounts === undefined) {
    throw new Error('a damper needs its mounts: give suspension.damper with chassisMount, armMount and on');
  }
  const ride = distance(mounts.chassisMount, mounts.armMount);
  const lengths = sampledPoses(readWhole(suspension)).map((carriers) => damperLengthMm(carriers, mounts));
  return { shortest: Math.min(ride, ...lengths), ride, longest: Math.max(ride, ...lengths) };
}
