import type { Problem } from '../design/problem.ts';
import type { Hardpoints, Suspension } from '../design/schema.ts';
import { LEAST_LENGTH_MM, LEAST_SINE } from '../math/tolerances.ts';
import { cross, distance, dot, length, normalize, sub, type Vec3 } from '../math/vec.ts';
import type { Assembly } from './assemble.ts';
import type { Mechanism } from './linkage.ts';

const shown = (p: Vec3): string => JSON.stringify(p);
const NEEDED = `at least ${LEAST_LENGTH_MM} mm apart`;

/** Distance of `p` from the line through `a` and `b`, which are apart. */
const offLine = (p: Vec3, a: Vec3, b: Vec3): number => length(cross(normalize(sub(b, a)), sub(p, a)));

/** Members of no length: pairs of points that coincide, joints on the line they should turn about. */
export function memberProblems({ hardpoints, damper }: Suspension): Problem[] {
  const problems: Problem[] = [];
  const say = (name: keyof Hardpoints, message: string) =>
    problems.push({ path: `suspension.hardpoints.${name}`, found: shown(hardpoints[name]), message });
  const apart = (a: keyof Hardpoints, b: keyof Hardpoints, message: string): boolean => {
    const fine = distance(hardpoints[a], hardpoints[b]) >= LEAST_LENGTH_MM;
    if (!fine) say(b, message);
    return fine;
  };
  const off = (p: keyof Hardpoints, a: keyof Hardpoints, b: keyof Hardpoints, message: string) => {
    if (offLine(hardpoints[p], hardpoints[a], hardpoints[b]) < LEAST_LENGTH_MM) say(p, message);
  };

  const pivots = `the arm's two pivots must be ${NEEDED}: they give the line it turns about`;
  const onPivotLine = `must stand off the line through the arm's pivots, or the arm has no length`;
  if (apart('lowerArmFront', 'lowerArmRear', pivots))
    off('lowerJoint', 'lowerArmFront', 'lowerArmRear', onPivotLine);
  if (apart('upperArmFront', 'upperArmRear', pivots))
    off('upperJoint', 'upperArmFront', 'upperArmRear', onPivotLine);
  apart('tieRodInner', 'tieRodOuter', `the tie rod's ends must be ${NEEDED}`);
  if (apart('lowerJoint', 'upperJoint', `the upright's two joints must be ${NEEDED}: they give the kingpin`))
    off(
      'tieRodOuter',
      'lowerJoint',
      'upperJoint',
      'must stand off the line through lower and upper joint, or it cannot steer the upright',
    );
  if (damper !== undefined && distance(damper.chassisMount, damper.armMount) < LEAST_LENGTH_MM)
    problems.push({
      path: 'suspension.damper.armMount',
      found: shown(damper.armMount),
      message: `the damper's two mounts must be ${NEEDED}`,
    });
  return problems;
}

/** Members that stand in line at ride height, and motion that would do nothing. */
export function rangeProblems(
  { hardpoints, steering }: Suspension,
  mechanism: Mechanism,
  atRideHeight: Assembly | undefined,
): Problem[] {
  const { upper, upperBranch, tieRodBranch, lower } = mechanism;
  const kingpin = normalize(sub(hardpoints.upperJoint, hardpoints.lowerJoint));
  const steeringArm = normalize(cross(kingpin, sub(hardpoints.tieRodOuter, hardpoints.lowerJoint)));
  const tieRod = normalize(sub(hardpoints.tieRodOuter, hardpoints.tieRodInner));
  const problems: Problem[] = [];
  const say = (path: string, found: Vec3, message: string) =>
    problems.push({ path: `suspension.${path}`, found: shown(found), message });

  if (upperBranch === 0 || Math.abs(dot(kingpin, upper.v)) < LEAST_SINE)
    say(
      'hardpoints.upperJoint',
      hardpoints.upperJoint,
      'upper arm and upright stand in line at ride height, so the arm could fold either way; check both joints',
    );
  if (tieRodBranch === 0 || Math.abs(dot(tieRod, steeringArm)) < LEAST_SINE)
    say(
      'hardpoints.tieRodOuter',
      hardpoints.tieRodOuter,
      'the tie rod stands in line with the steering arm at ride height, so it cannot hold the wheel straight',
    );
  if (
    problems.length === 0 &&
    (atRideHeight === undefined || riseShare(atRideHeight, lower.radius) < LEAST_SINE)
  )
    say(
      'hardpoints.lowerJoint',
      hardpoints.lowerJoint,
      'the wheel centre neither rises nor falls when the lower arm turns from ride height; check its pivots',
    );
  if (problems.length === 0 && steering.rackOutboard + steering.rackInboard > 0) {
    if (Math.abs(dot(tieRod, mechanism.rackDirection)) < LEAST_SINE)
      say(
        'steering.rackDirection',
        steering.rackDirection,
        'the rack slides square to the tie rod, so it cannot steer the wheel',
      );
    else if (Math.abs(kingpin[2]) < LEAST_SINE)
      say(
        'hardpoints.upperJoint',
        hardpoints.upperJoint,
        'lower and upper joint stand at one height, so the wheel cannot be steered about them',
      );
  }
  return problems;
}

const riseShare = (assembly: Assembly, armLengthMm: number): number =>
  Math.abs(assembly.riseRateMm) / armLengthMm;
