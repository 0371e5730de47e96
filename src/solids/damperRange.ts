import type { Suspension } from '../design/schema.ts';
import { distance } from '../math/vec.ts';
import { damperLengthMm } from '../mechanism/damperLength.ts';
import { sampledPoses } from '../mechanism/sampledPoses.ts';

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
  const ride = distance(mounts.chassisMount, mounts.armMount);
  const lengths = sampledPoses(suspension).map((carriers) => damperLengthMm(carriers, mounts));
  return { shortest: Math.min(ride, ...lengths), ride, longest: Math.max(ride, ...lengths) };
}
