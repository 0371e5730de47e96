import { LEAST_LENGTH_MM, LEAST_SINE } from '../../math/tolerances.ts';
import { cross, distance, distanceFromLine, dot, normalize, sub, type Vec3 } from '../../math/vec.ts';
import type { Problem } from '../../units/problem.ts';
import type { Hardpoints, Suspension } from '../suspension.ts';
import type { RackFields, RackLinkage } from './linkage.ts';

/** Members without length: pairs of points that coincide, and joints on the line about which they should turn. */
export function pointProblems(points: Hardpoints): { at: string; message: string }[] {
  const problems: { at: string; message: string }[] = [];
  const report = (at: string, message: string) => problems.push({ at, message });
  const apart = (a: string, b: string) => distance(points[a], points[b]) >= LEAST_LENGTH_MM;
  const offLine = (p: string, a: string, b: string) =>
    distanceFromLine(points[p], points[a], points[b]) >= LEAST_LENGTH_MM;
  for (const arm of ['lower', 'upper'] as const) {
    const [front, rear, joint] = [`${arm}ArmFront`, `${arm}ArmRear`, `${arm}Joint`];
    if (!apart(front, rear))
      report(rear, `is the same point as ${front}; the arm needs two pivots to turn about`);
    else if (!offLine(joint, front, rear))
      report(joint, `lies on the line of the ${arm} arm's pivots, so the arm could not move it`);
  }
  if (!apart('tieRodInner', 'tieRodOuter'))
    report('tieRodOuter', 'is the same point as tieRodInner; a tie rod needs a length');
  if (!apart('lowerJoint', 'upperJoint'))
    report('upperJoint', 'is the same point as lowerJoint; the steering axis runs through both');
  else if (!offLine('tieRodOuter', 'lowerJoint', 'upperJoint'))
    report('tieRodOuter', 'lies on the steering axis, so the tie rod could not steer the upright');
  return problems;
}

/** See `Kinematics.rangeProblems`. */
export function rangeProblems(
  { hardpoints, steering }: Suspension,
  { lower, upper, upperBranch, tieRodBranch, rackDirection }: RackLinkage,
  riseRateMm: number | undefined,
): Problem[] {
  const kingpin = normalize(sub(hardpoints.upperJoint, hardpoints.lowerJoint));
  const steeringArm = normalize(cross(kingpin, sub(hardpoints.tieRodOuter, hardpoints.lowerJoint)));
  const tieRod = normalize(sub(hardpoints.tieRodOuter, hardpoints.tieRodInner));
  const rack = steering as unknown as RackFields;
  const problems: Problem[] = [];
  const report = (path: string, found: Vec3, message: string) =>
    problems.push({ path: `suspension.${path}`, found: JSON.stringify(found), message });
  const reportPoint = (name: string, message: string) =>
    report(`hardpoints.${name}`, hardpoints[name], message);

  if (upperBranch === 0 || Math.abs(dot(kingpin, upper.v)) < LEAST_SINE)
    reportPoint(
      'upperJoint',
      'upper arm and upright are in line at ride height, so the arm could fold either way; check both joints',
    );
  if (tieRodBranch === 0 || Math.abs(dot(tieRod, steeringArm)) < LEAST_SINE)
    reportPoint(
      'tieRodOuter',
      'the tie rod is in line with the steering arm at ride height, so it cannot hold the wheel straight; move one of its ends',
    );
  if (problems.length === 0 && (riseRateMm === undefined || Math.abs(riseRateMm) / lower.radius < LEAST_SINE))
    reportPoint(
      'lowerJoint',
      'the wheel centre neither rises nor falls when the lower arm turns from ride height; check its pivots',
    );
  if (problems.length > 0 || rack.rackOutboard + rack.rackInboard === 0) return problems;
  if (Math.abs(dot(tieRod, rackDirection)) < LEAST_SINE)
    report(
      'steering.rackDirection',
      rack.rackDirection,
      'the rack moves at a right angle to the tie rod, so it cannot steer the wheel; check its direction',
    );
  else if (Math.abs(kingpin[2]) < LEAST_SINE)
    reportPoint(
      'upperJoint',
      'lower and upper joint are at the same height, so the wheel cannot be steered about them; check both joints',
    );
  return problems;
}
