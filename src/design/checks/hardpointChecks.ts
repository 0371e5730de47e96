import { layoutOf } from '../../layouts/layoutOf.ts';
import { LEAST_LENGTH_MM } from '../../math/tolerances.ts';
import { distance, type Vec3 } from '../../math/vec.ts';
import type { Readable } from '../readable.ts';
import type { Check, Report } from './report.ts';

/** Checks that the hardpoints make a mechanism, and that side and datum are those of a left corner above the ground. */
export const hardpointChecks: Check = ({ suspension, lengthText }, report) => {
  if (suspension === undefined) return;
  const at = ['suspension', 'hardpoints'];
  const points = suspension.hardpoints;
  for (const problem of layoutOf(suspension).pointProblems(points))
    report([...at, problem.at], problem.message);
  checkDatum(points.wheelCentre, lengthText, report);
  if (suspension.hubFollowsWheel === true && suspension.hubFace !== undefined)
    report(['suspension', 'hubFace'], 'must be absent if hubFollowsWheel is true; remove one of the two');

  const { damper, travel } = suspension;
  if (damper !== undefined && distance(damper.chassisMount, damper.armMount) < LEAST_LENGTH_MM) {
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
    const right = 'For a right corner, write the same coordinates with Y positive, and "side": "right"';
    report(
      [...path, 1],
      `must be more than 0: the file holds a left corner, and Y is positive to the left. ${right}`,
    );
  }
  if (wheelCentre[2] <= 0)
    report(
      [...path, 2],
      `is ${lengthText(wheelCentre[2])} above the ground, and must be more than 0: Z is measured up from the ` +
        "ground. If you measured from the hub's centre or another level, give its height above the ground as originHeight",
    );
}

/** Checks that the damper's body fits between its mounts at ride height. */
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
