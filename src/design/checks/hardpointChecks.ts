import { cross, distance, length, sub, type Vec3 } from '../../math/vec.ts';
import type { Readable } from '../readable.ts';
import type { Check, Report } from './report.ts';

/** Points nearer than this are one point as far as a mechanism is concerned: no joint is so small. */
const DEGENERATE_MM = 1;

/** Hardpoints from which no mechanism follows, and the marks of a corner written on the wrong side or datum. */
export const hardpointChecks: Check = ({ suspension, lengthText }, report) => {
  if (suspension === undefined) return;
  const at = ['suspension', 'hardpoints'];
  const points = suspension.hardpoints;
  for (const arm of ['lower', 'upper'] as const) {
    const [front, rear, joint] = [points[`${arm}ArmFront`], points[`${arm}ArmRear`], points[`${arm}Joint`]];
    if (distance(front, rear) < DEGENERATE_MM) {
      report(
        [...at, `${arm}ArmRear`],
        `is the same point as ${arm}ArmFront; the arm needs two pivots to turn about`,
      );
    } else if (distanceFromLine(joint, front, rear) < DEGENERATE_MM) {
      report(
        [...at, `${arm}Joint`],
        `lies on the line of the ${arm} arm's pivots, so the arm could not move it`,
      );
    }
  }
  if (distance(points.tieRodInner, points.tieRodOuter) < DEGENERATE_MM) {
    report([...at, 'tieRodOuter'], 'is the same point as tieRodInner; a tie rod needs a length');
  }
  if (distance(points.lowerJoint, points.upperJoint) < DEGENERATE_MM) {
    report([...at, 'upperJoint'], 'is the same point as lowerJoint; the steering axis runs through both');
  } else if (distanceFromLine(points.tieRodOuter, points.lowerJoint, points.upperJoint) < DEGENERATE_MM) {
    report([...at, 'tieRodOuter'], 'lies on the steering axis, so the tie rod could not steer the upright');
  }
  checkDatum(points.wheelCentre, lengthText, report);
  if (suspension.hubFollowsWheel === true && suspension.hubFace !== undefined)
    report(['suspension', 'hubFace'], 'must be absent if hubFollowsWheel is true; remove one of the two');

  const { damper, travel } = suspension;
  if (damper !== undefined && distance(damper.chassisMount, damper.armMount) < DEGENERATE_MM) {
    report(
      ['suspension', 'damper', 'armMount'],
      'is the same point as chassisMount; a damper needs a length',
    );
  }
  if (travel.bump + travel.droop === 0) {
    report(['suspension', 'travel'], 'has neither bump nor droop; one of them must be more than 0');
  }
};

function checkDatum(wheelCentre: Vec3, lengthText: Readable['lengthText'], report: Report): void {
  const path = ['suspension', 'hardpoints', 'wheelCentre'];
  if (wheelCentre[1] <= 0) {
    const right = 'for a right one write the same coordinates with Y positive and "side": "right"';
    report(
      [...path, 1],
      `must be more than 0: a corner is written as a left one with Y to the left; ${right}`,
    );
  }
  if (wheelCentre[2] <= 0)
    report(
      [...path, 2],
      `is ${lengthText(wheelCentre[2])} above the ground, and must be more than 0: Z is measured up from the ` +
        "ground. For points measured from the hub's centre or another level, give its height above the ground as originHeight",
    );
}

/** From a point to the endless line through `a` and `b`. */
function distanceFromLine(p: Vec3, a: Vec3, b: Vec3): number {
  const along = sub(b, a);
  return length(cross(sub(p, a), along)) / length(along);
}

/** The damper's body must fit between its mounts as they stand at ride height. */
export const damperLengthCheck: Check = ({ suspension, parts, lengthText }, report) => {
  if (suspension?.damper === undefined) return;
  const between = distance(suspension.damper.chassisMount, suspension.damper.armMount);
  parts.forEach(({ entry }, index) => {
    if (entry?.kind === 'damper' && entry.bodyLength >= between) {
      const message = `must be less than the ${lengthText(between, 'down')} between the damper's mounts at ride height`;
      report(['parts', index, 'bodyLength'], message);
    }
  });
};
