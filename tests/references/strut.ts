/**
 * A strut, for tests of rates: an arm on two pivots, a tie rod to a rack along Y, and an upright whose strut axis slides
 * through a fixed top. It computes with plain numbers only, so it has poses and rates, and no enclosures.
 */
import type { Kinematics, Linkage, Posed } from '../../src/layouts/kinematics.ts';
import type { Layout } from '../../src/layouts/layout.ts';
import type { Hardpoints, Suspension } from '../../src/layouts/suspension.ts';
import {
  applyPoint,
  compose,
  leastRotation,
  type Rigid,
  rotationAbout,
  translation,
} from '../../src/math/rigid.ts';
import {
  add,
  addScaled,
  cross,
  distance,
  dot,
  normalize,
  perpendicular,
  sub,
  type Vec3,
} from '../../src/math/vec.ts';

interface StrutLinkage extends Linkage {
  points: Hardpoints;
}

interface PosedStrut extends Posed<never> {
  rise: never;
  armRad: number;
  inputMm: number;
  arm: Rigid;
  upright: Rigid;
}

/** Step of the central difference for the rise of the wheel, rad. */
const STEP_RAD = 1e-5;

function pose({ points }: StrutLinkage, armRad: number, inputMm: number) {
  const { armFront, armRear, lowerJoint, strutTop, strutLower, tieRodInner, tieRodOuter, wheelCentre } =
    points;
  const arm = rotationAbout(armFront, normalize(sub(armRear, armFront)), armRad);
  const joint = applyPoint(arm, lowerJoint);

  // The point of the strut axis, in the upright, that is as far from the joint as the top now is.
  const axis = normalize(sub(strutTop, strutLower));
  const toLower = sub(strutLower, lowerJoint);
  const half = dot(toLower, axis);
  const far = half ** 2 - dot(toLower, toLower) + distance(joint, strutTop) ** 2;
  const inTop = addScaled(strutLower, axis, -half + Math.sqrt(far));
  const kingpin = normalize(sub(strutTop, joint));
  const turned = leastRotation(normalize(sub(inTop, lowerJoint)), kingpin);
  const shifted = compose(
    translation(joint),
    compose(turned, translation([0, 0, 0].map((_, i) => -lowerJoint[i]) as never)),
  );

  // The turn about the line from joint to top that keeps the tie rod's length: a cos + b sin = c.
  const outer = applyPoint(shifted, tieRodOuter);
  const centre = addScaled(joint, kingpin, dot(sub(outer, joint), kingpin));
  const radial = sub(outer, centre);
  const inner = add(tieRodInner, [0, inputMm, 0]);
  const from = sub(centre, inner);
  const a = 2 * dot(from, radial);
  const b = 2 * dot(from, cross(kingpin, radial));
  const c = distance(tieRodInner, tieRodOuter) ** 2 - dot(from, from) - dot(radial, radial);
  const middle = Math.atan2(b, a);
  const apart = Math.acos(c / Math.hypot(a, b));
  const turn = [middle - apart, middle + apart]
    .map((angle) => Math.atan2(Math.sin(angle), Math.cos(angle)))
    .reduce((one, other) => (Math.abs(one) < Math.abs(other) ? one : other));
  const upright = compose(rotationAbout(joint, kingpin, turn), shifted);
  const rise = applyPoint(upright, wheelCentre)[2] - wheelCentre[2];
  return { rise, armRad, inputMm, arm, upright };
}

const riseRate = (linkage: StrutLinkage, { armRad, inputMm }: PosedStrut): number =>
  (pose(linkage, armRad + STEP_RAD, inputMm).rise - pose(linkage, armRad - STEP_RAD, inputMm).rise) /
  (2 * STEP_RAD);

const kinematics = {
  prepare: ({ hardpoints }: Suspension) => ({ armRadiusMm: 300, inputPerRad: 100, points: hardpoints }),
  rangeProblems: () => [],
  inputAt: () => 0,
  pose: (_: unknown, linkage: StrutLinkage, armRad: number, inputMm: number) =>
    pose(linkage, armRad, inputMm),
  rates: (_: unknown, linkage: StrutLinkage, posed: PosedStrut) => ({ rise: riseRate(linkage, posed) }),
  members: (_: unknown, __: StrutLinkage, { arm, upright }: PosedStrut) => ({ arm, upright }),
  solverRates: () => ({ riseInputRate: 0, closures: [] }),
  armRad({ points: { armFront, armRear } }: StrutLinkage, { arm }: { arm: Rigid }): number {
    const axis = normalize(sub(armRear, armFront));
    const was = perpendicular(axis);
    const is = sub(applyPoint(arm, was), applyPoint(arm, [0, 0, 0]));
    return Math.atan2(dot(is, cross(axis, was)), dot(is, was));
  },
} as unknown as Kinematics;

/** As much of a layout as poses and rates read. */
export const strut = {
  name: 'strut',
  carriers: { chassis: 'the chassis', arm: 'the arm', upright: 'the upright', wheel: 'the wheel' },
  kingpin: { lower: 'lowerJoint', upper: 'strutTop' },
  pivots: [],
  kept: [],
  pointProblems: () => [],
  kinematics,
} satisfies Partial<Layout> as unknown as Layout;

/** A suspension of it. The damper is the strut: from the top to its lower end on the upright. */
export const strutSuspension = (hardpoints: Record<string, Vec3>): Suspension =>
  ({
    layout: 'strut',
    hardpoints,
    damper: { chassisMount: hardpoints.strutTop, armMount: hardpoints.strutLower, on: 'upright' },
    travel: { bump: 60, droop: 60 },
    steering: {},
    camberDeg: 0,
    toeDeg: 0,
  }) as unknown as Suspension;
