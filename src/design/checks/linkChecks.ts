import { LEAST_LENGTH_MM } from '../../math/tolerances.ts';
import { distance } from '../../math/vec.ts';
import type { Check } from './report.ts';

/** Checks that drive shaft and brake hose have a length, and that the hose is longer than its slack. */
export const linkChecks: Check = ({ driveShaft, brakeHose, lengthText }, report) => {
  const least = lengthText(LEAST_LENGTH_MM, 'up');
  if (driveShaft !== undefined && distance(driveShaft.inner, driveShaft.outer) < LEAST_LENGTH_MM)
    report(
      ['driveShaft', 'outer'],
      `must be at least ${least} from inner; type the centre of the outer joint`,
    );
  if (brakeHose === undefined) return;
  const { chassisEnd, uprightEnd, length, slack } = brakeHose;
  if (distance(chassisEnd, uprightEnd) < LEAST_LENGTH_MM)
    report(
      ['brakeHose', 'uprightEnd'],
      `must be at least ${least} from chassisEnd; type the centre of the end at the upright`,
    );
  if (length !== undefined && length <= slack)
    report(
      ['brakeHose', 'slack'],
      `must be less than the length, ${lengthText(length)}; type the length that the hose keeps to spare`,
      { against: ['brakeHose', 'length'] },
    );
};
