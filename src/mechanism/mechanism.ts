import type { Layout } from '../layouts/layout.ts';
import { layoutOf } from '../layouts/layoutOf.ts';
import type { Suspension } from '../layouts/suspension.ts';
import { LEAST_LENGTH_MM } from '../math/tolerances.ts';
import { distance, type Vec3 } from '../math/vec.ts';
import { DesignProblems, type Problem } from '../units/problem.ts';
import { assemble } from './assemble.ts';
import type { Mechanism } from './prepared.ts';
import { heldDistances } from './residual.ts';
import { spinAxis } from './spinAxis.ts';

export type { Mechanism } from './prepared.ts';
export { solvePose } from './solvePose.ts';

/**
 * Prepares a suspension for posing: lengths, local coordinates, and the assembly branch of the hardpoints at ride
 * height. Throws DesignProblems with the fields at fault if a member has no length, if members are in line so that
 * the branch is undetermined, or if arm or steering could not move the wheel.
 */
export function prepareMechanism(
  suspension: Suspension,
  { damperBodyEnd }: { damperBodyEnd: 'chassis' | 'arm' } = { damperBodyEnd: 'arm' },
): Mechanism {
  const layout = layoutOf(suspension);
  const members = memberProblems(layout, suspension);
  if (members.length > 0) throw new DesignProblems(members);

  const { hardpoints, damper } = suspension;
  const linkage = layout.kinematics.prepare(suspension);
  const atRideHeight = assemble({ layout: layout.name, linkage }, 0, 0);
  const range = layout.kinematics.rangeProblems(suspension, linkage, atRideHeight?.riseRateMm);
  if (range.length > 0 || atRideHeight === undefined) throw new DesignProblems(range);
  return {
    layout: layout.name,
    linkage,
    carriers: Object.keys(layout.carriers),
    hardpoints,
    damper,
    damperBodyEnd,
    spinAxis: spinAxis(suspension),
    bumpSense: Math.sign(atRideHeight.riseRateMm),
    held: heldDistances(layout, hardpoints),
  };
}

/** Members without length. */
function memberProblems(layout: Layout, { hardpoints, damper }: Suspension): Problem[] {
  const found = (point: Vec3) => JSON.stringify(point);
  const problems = layout.pointProblems(hardpoints).map(({ at, message }) => ({
    path: `suspension.hardpoints.${at}`,
    found: found(hardpoints[at]),
    message,
  }));
  if (damper !== undefined && distance(damper.chassisMount, damper.armMount) < LEAST_LENGTH_MM)
    problems.push({
      path: 'suspension.damper.armMount',
      found: found(damper.armMount),
      message: `the damper's two mounts must be at least ${LEAST_LENGTH_MM} mm apart`,
    });
  return problems;
}
